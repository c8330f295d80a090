/** Where a command was started: how wide its answer may be, whether it has colours, what stands in for files. */
export interface Terminal {
  /** How a command is called here, for its help: "carryover plan". */
  readonly called: (command: string) => string;
  /** "2027-03-05", printed on slates. */
  readonly today: string;
  /** "2027-03-01T18:00:00Z", when a file is made. */
  readonly stampedAtUtc: string;
  /** Columns of standard output. */
  readonly columns: number;
  /** Whether standard output shows colours where nobody has said. */
  readonly hasColors: boolean;
  /**
   * Prints what is ready before the command is done.
   * @returns whether anybody still reads
   */
  readonly print: (text: string) => Promise<boolean>;
  /** Standard input, up to so many bytes and one more. */
  readonly readInput: (mostBytes: number) => Promise<Uint8Array>;
}

/** What a command leaves behind besides files; 1 is for who asked to be told that a limit is passed. */
export interface CommandOutcome {
  readonly status: 0 | 1 | 2;
  readonly stdout: string;
  readonly stderr: string;
  /** Behind `stdout`, byte for byte: a file for another program. */
  readonly file?: string;
}
