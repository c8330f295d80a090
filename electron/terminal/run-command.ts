import { troubleText } from '../../core/result';
import { painted } from './paint';
import { printable } from './printable';
import type { CommandOutcome, Terminal } from './terminal';
import { TABLE_COLUMNS } from './text-table';

/** A narrower terminal breaks the lines itself. */
const LEAST_COLUMNS = 40;

async function readInput(mostBytes: number): Promise<Uint8Array> {
  const pieces: Uint8Array[] = [];
  let size = 0;
  for await (const piece of process.stdin as AsyncIterable<Uint8Array>) {
    pieces.push(piece);
    size += piece.length;
    if (size > mostBytes) break;
  }
  return Buffer.concat(pieces);
}

/** Printed piece by piece, no faster than it is read. */
async function print(text: string): Promise<boolean> {
  const { stdout } = process;
  if (!stdout.write(painted(printable(text))) && !stdout.errored && !stdout.destroyed) {
    await new Promise<void>((done) => {
      const go = (): void => done();
      stdout.once('drain', go).once('error', go).once('close', go);
    });
  }
  return !stdout.errored && !stdout.destroyed;
}

/** A file as somebody looks at it: what marks its encoding and ends its lines for programs steers no terminal. */
function shown(file: string): string {
  return printable(file.replace(/^\uFEFF/, '').replaceAll('\r\n', '\n'));
}

/** The terminal that this process has. Source of NO_COLOR and of dumb terminals: common practice. */
function ownTerminal(called: Terminal['called']): Terminal {
  const { stdout, env } = process;
  const now = new Date();
  return {
    called,
    today: [now.getFullYear(), now.getMonth() + 1, now.getDate()]
      .map((part) => String(part).padStart(2, '0'))
      .join('-'),
    stampedAtUtc: `${now.toISOString().slice(0, 19)}Z`,
    columns: stdout.isTTY ? Math.max(LEAST_COLUMNS, stdout.columns ?? TABLE_COLUMNS) : TABLE_COLUMNS,
    hasColors: stdout.isTTY && !env['NO_COLOR'] && env['TERM'] !== 'dumb',
    print,
    readInput,
  };
}

/**
 * Runs a command as a program: prints what it says, and ends with its status.
 * @param called how commands are called where this one was started
 */
export async function runCommand(
  called: Terminal['called'],
  run: (args: readonly string[], terminal: Terminal) => Promise<CommandOutcome>,
  args: readonly string[] = process.argv.slice(2),
): Promise<void> {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    // A reader that has seen enough closes the pipe; that is no fault of the command.
    if (error.code === 'EPIPE') return;
    // Each piece that is written fails by itself; one sentence is enough.
    if (process.exitCode === 2) return;
    process.exitCode = 2;
    process.stderr.write(
      `${troubleText({
        kind: 'not-written',
        what: `The answer could not be written (${error.code ?? error.message}); what is there of it is not whole.`,
        where: 'standard output',
        mend: 'Free some space there, or send it elsewhere.',
      })}\n`,
    );
  });
  // Where nobody can be told, the status still tells.
  process.stderr.on('error', () => {
    process.exitCode = 2;
  });
  const { status, stdout, stderr, file } = await run(args, ownTerminal(called));
  process.stdout.write(painted(printable(stdout)));
  if (file !== undefined) process.stdout.write(process.stdout.isTTY ? shown(file) : file);
  process.stderr.write(printable(stderr));
  process.exitCode ??= status;
}

/**
 * Runs a command as a script of npm, which starts it in the project's folder: paths are meant from where the
 * user stands.
 * @param script its name among the scripts
 */
export async function runScript(
  script: string,
  run: (args: readonly string[], terminal: Terminal) => Promise<CommandOutcome>,
): Promise<void> {
  const { npm_lifecycle_event: started, INIT_CWD: startedIn } = process.env;
  if (started === script && startedIn !== undefined) process.chdir(startedIn);
  await runCommand((command) => `npm run --silent ${command} --`, run);
}
