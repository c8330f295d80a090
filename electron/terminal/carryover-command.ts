import { version } from '../../package.json';
import { SAFETY_LINE } from '../../core/words/safety-line';
import { fileWords } from '../../core/words/reader';
import { COMMANDS } from './commands';
import { nearest } from './near-miss';
import { definitions } from './option-table';
import { SHELLS, type Shell } from './completion';
import type { CommandOutcome, Terminal } from './terminal';
import { TABLE_COLUMNS, wrapped } from './text-table';
import { troublesText } from './refusal';

const COMPLETION = {
  name: 'completion',
  does: 'a script for the shell that completes all this: bash or zsh',
} as const;

function mainHelp(columns: number): string {
  const width = Math.min(columns, TABLE_COLUMNS);
  const commands = [...COMMANDS, COMPLETION].map(({ name, does }) => ({ name, help: does }));
  const options = [
    { name: '-h, --help', help: 'print this; after a command, what it takes' },
    { name: '--version', help: 'print the version' },
  ];
  const parts = [
    'carryover COMMAND [options]',
    definitions(commands, width),
    definitions(options, width),
    wrapped(
      'carryover COMMAND --help lists what a command takes. In the place of a trip file, - is standard input. After -- nothing is an option.',
      0,
      width,
    ),
    wrapped(
      'Exit 0: done. Exit 1: done, but with --strict a limit is passed. Exit 2: something cannot be used; standard error says what, where and how to mend it, and nothing is written.',
      0,
      width,
    ),
    wrapped(fileWords(SAFETY_LINE), 0, width),
  ];
  return `${parts.join('\n\n')}\n`;
}

function refused(where: string, what: string, mend: string): CommandOutcome {
  const stderr = troublesText('the command line', [{ kind: 'options', what, where, mend }]);
  return { status: 2, stdout: '', stderr };
}

async function completion(args: readonly string[]): Promise<CommandOutcome> {
  const [asked, ...more] = args;
  const names = Object.keys(SHELLS).join(' or ');
  if (asked === '--help' || asked === '-h') {
    const stdout = `carryover completion SHELL\n\nSHELL is ${names}. To have it in every shell:\n\n${Object.values(
      SHELLS,
    )
      .map(({ use }) => `  ${use}`)
      .join('\n')}\n`;
    return { status: 0, stdout, stderr: '' };
  }
  if (asked === undefined || more.length > 0 || !Object.hasOwn(SHELLS, asked)) {
    const what = asked === undefined ? 'No shell is named.' : `"${args.join(' ')}" is no shell known here.`;
    return refused('completion', what, `Use ${names}, as in carryover completion bash.`);
  }
  const tables = await Promise.all(
    COMMANDS.map(async ({ does, load }) => ({ ...(await load()).table, does })),
  );
  const script = SHELLS[asked as Shell].script([
    ...tables,
    { ...COMPLETION, takes: 'SHELL', operands: [], groups: [], exits: '', words: Object.keys(SHELLS) },
  ]);
  return { status: 0, stdout: script, stderr: '' };
}

/**
 * The program `carryover`: finds the command that is asked for and runs it.
 * @param args what follows the program @param terminal where it was started
 */
export async function carryoverCommand(args: readonly string[], terminal: Terminal): Promise<CommandOutcome> {
  const [name, ...rest] = args;
  if (name === undefined) {
    return { status: 2, stdout: '', stderr: `No command is named.\n\n${mainHelp(terminal.columns)}` };
  }
  if (name === '--help' || name === '-h' || name === 'help') {
    return { status: 0, stdout: mainHelp(terminal.columns), stderr: '' };
  }
  if (name === '--version') return { status: 0, stdout: `${version}\n`, stderr: '' };
  if (name === COMPLETION.name) return completion(rest);
  const command = COMMANDS.find((each) => each.name === name);
  if (command === undefined) {
    const names = [...COMMANDS, COMPLETION].map((each) => each.name);
    const near = nearest(name, names);
    return refused(
      name,
      name.startsWith('-') ? 'A command comes first.' : 'There is no such command.',
      near === null ? `Use ${names.join(', ')}.` : `Did you mean ${near}? carryover --help lists all.`,
    );
  }
  const { run } = await command.load();
  return run(rest, terminal);
}
