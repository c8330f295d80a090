/** The commands there are; each is loaded by who calls it, and all by who completes them. */
import type { CommandTable } from './option-table';
import type { CommandOutcome, Terminal } from './terminal';

export interface LoadedCommand {
  readonly table: CommandTable;
  readonly run: (args: readonly string[], terminal: Terminal) => Promise<CommandOutcome>;
}

export interface Command {
  readonly name: string;
  /** What it does, in a line of the help. */
  readonly does: string;
  readonly load: () => Promise<LoadedCommand>;
}

export const COMMANDS: readonly Command[] = [
  {
    name: 'plan',
    does: 'a trip as a table: limits, room, gas, cautions; its slates as PDF',
    load: async () => {
      const [{ PLAN }, { planCommand }] = await Promise.all([
        import('./plan-options'),
        import('./plan-command'),
      ]);
      return { table: PLAN, run: planCommand };
    },
  },
  {
    name: 'mixes',
    does: 'compare mixes at the sites of a trip, search what to stock',
    load: async () => {
      const [{ MIXES }, { mixesCommand }] = await Promise.all([
        import('./mixes-options'),
        import('./mixes-command'),
      ]);
      return { table: MIXES, run: mixesCommand };
    },
  },
  {
    name: 'mend',
    does: 'what to change so that no caution ahead is left',
    load: async () => {
      const [{ MEND }, { mendCommand }] = await Promise.all([
        import('./mend-options'),
        import('./mend-command'),
      ]);
      return { table: MEND, run: mendCommand };
    },
  },
  {
    name: 'lesson',
    does: 'a sheet of exercises for a class, with its answers; as PDF too',
    load: async () => {
      const [{ LESSON }, { lessonCommand }] = await Promise.all([
        import('./lesson-options'),
        import('./lesson-command'),
      ]);
      return { table: LESSON, run: lessonCommand };
    },
  },
  {
    name: 'export',
    does: 'files for other programs: UDDF, tables, a calendar, waypoints',
    load: async () => {
      const [{ EXPORT }, { exportCommand }] = await Promise.all([
        import('./export-options'),
        import('./export-command'),
      ]);
      return { table: EXPORT, run: exportCommand };
    },
  },
  {
    name: 'check',
    does: 'a line for each of many trips, or of all in a folder',
    load: async () => {
      const [{ CHECK }, { checkCommand }] = await Promise.all([
        import('./check-options'),
        import('./check-command'),
      ]);
      return { table: CHECK, run: checkCommand };
    },
  },
];
