/** The commands by name, for who must know one without loading any. */
export const COMMAND_NAMES = ['plan', 'mixes', 'mend', 'lesson', 'export', 'check'] as const;

export type CommandName = (typeof COMMAND_NAMES)[number];
