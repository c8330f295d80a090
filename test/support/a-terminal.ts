import type { Terminal } from '../../electron/terminal/terminal';

/** A pipe, as a script has it: 100 columns, no colours, nothing on standard input. */
export function aTerminal(part: Partial<Terminal> = {}): Terminal {
  return {
    called: (command) => `carryover ${command}`,
    today: '2027-03-01',
    stampedAtUtc: '2027-03-01T18:00:00Z',
    columns: 100,
    hasColors: false,
    print: async () => true,
    readInput: async () => new Uint8Array(),
    ...part,
  };
}
