import { parseArgs, type ParseArgsConfig } from 'node:util';
import { failure, success, type Result, type Trouble } from '../../core/result';

/** What the runtime's own parser makes of arguments. */
type Parsed<Options extends NonNullable<ParseArgsConfig['options']>> = ReturnType<
  typeof parseArgs<{ args: string[]; options: Options; allowPositionals: true; strict: true }>
>;

/** What the parser of the runtime objects to, in the words of the commands. */
function notParsed(error: unknown): Trouble<'options'> {
  const { code, message } = error as NodeJS.ErrnoException;
  const where = /'(--?[^' =]+)/.exec(message)?.[1] ?? 'the command line';
  const [what, mend] =
    code === 'ERR_PARSE_ARGS_UNKNOWN_OPTION'
      ? ['There is no such option.', '--help lists all.']
      : ['Its value is missing, or it takes none.', '--help says which options take a value.'];
  return { kind: 'options', what, where, mend };
}

/**
 * The arguments of a command by its options.
 * @param args what follows the command @param options as the runtime's parser has them
 * @returns values and positionals, or why they cannot be read
 */
export function parsedArgs<const Options extends NonNullable<ParseArgsConfig['options']>>(
  args: readonly string[],
  options: Options,
): Result<Parsed<Options>, 'options'> {
  try {
    return success(parseArgs({ args: [...args], options, allowPositionals: true, strict: true }));
  } catch (error) {
    return failure(notParsed(error));
  }
}
