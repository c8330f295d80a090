/** What a shell needs to complete the commands, made from their tables. */
import type { CommandTable, OptionRow } from './option-table';

export interface CompletedCommand extends CommandTable {
  readonly does: string;
  /** Words in the place of its operand; left out: files. */
  readonly words?: readonly string[];
}

export type Shell = 'bash' | 'zsh';

function rowsOf({ groups }: CommandTable): readonly OptionRow[] {
  return groups.flatMap(({ rows }) => rows);
}

function flagsOf({ name, letter }: OptionRow): readonly string[] {
  return [`--${name}`, ...(letter === undefined ? [] : [`-${letter}`])];
}

/** Words for compgen, a line each: the script parts at line feeds, so that names of files may have blanks. */
function wordLines(words: readonly string[]): string {
  return `$'${words.join(String.raw`\n`)}'`;
}

/** Between single quotation marks, for both shells. */
function quoted(text: string): string {
  return `'${text.replaceAll("'", String.raw`'\''`)}'`;
}

function bashValues(row: OptionRow): string {
  const { completed = [] } = row;
  if (completed === 'file') return 'COMPREPLY=($(compgen -f -- "$word"))';
  return completed.length === 0
    ? 'COMPREPLY=()'
    : `COMPREPLY=($(compgen -W ${wordLines(completed)} -- "$word"))`;
}

function bashCommand(command: CompletedCommand): string {
  const valued = rowsOf(command).filter(({ value }) => value !== undefined);
  const cases = valued.map((row) => `      --${row.name}) ${bashValues(row)}; return ;;`);
  const flags = rowsOf(command).flatMap(flagsOf);
  const operands = command.words === undefined ? 'compgen -f' : `compgen -W ${wordLines(command.words)}`;
  return [
    `  ${command.name})`,
    ...(cases.length === 0 ? [] : ['    case "$before" in', ...cases, '    esac']),
    `    if [[ $word == -* ]]; then COMPREPLY=($(compgen -W ${wordLines(flags)} -- "$word"))`,
    `    else COMPREPLY=($(${operands} -- "$word")); fi ;;`,
  ].join('\n');
}

function bashScript(commands: readonly CompletedCommand[]): string {
  const names = [...commands.map(({ name }) => name), '--help', '--version'];
  return `# Completion of carryover for bash.
_carryover() {
  local IFS=$'\\n' word=\${COMP_WORDS[COMP_CWORD]} before=\${COMP_WORDS[COMP_CWORD-1]}
  # --option=value comes as three words.
  if [[ $word == = ]]; then word=
  elif [[ $before == = ]]; then before=\${COMP_WORDS[COMP_CWORD-2]}
  fi
  compopt -o filenames 2>/dev/null
  if ((COMP_CWORD == 1)); then
    compopt +o filenames 2>/dev/null
    COMPREPLY=($(compgen -W ${wordLines(names)} -- "$word"))
    return
  fi
  case "\${COMP_WORDS[1]}" in
${commands.map(bashCommand).join('\n')}
  esac
}
complete -F _carryover carryover
`;
}

/** A text as _arguments has it: brackets and colons part its fields. */
function zshText(text: string): string {
  return text.replaceAll(/[[\]:\\]/g, (sign) => `\\${sign}`);
}

function zshValue({ value, completed = [] }: OptionRow): string {
  if (value === undefined) return '';
  const action = completed === 'file' ? '_files' : completed.length === 0 ? ' ' : `(${completed.join(' ')})`;
  return `:${zshText(value)}:${action}`;
}

function zshCommand(command: CompletedCommand): string {
  const lines = rowsOf(command).flatMap((row) =>
    flagsOf(row).map((flag) =>
      quoted(`${flag}${row.value === undefined ? '' : '='}[${zshText(row.help)}]${zshValue(row)}`),
    ),
  );
  const operands =
    command.words === undefined
      ? quoted('*:trip:_files')
      : quoted(`1:${zshText(command.takes)}:(${command.words.join(' ')})`);
  return `    ${command.name}) _arguments ${[...lines, operands].join(' ')} ;;`;
}

function zshScript(commands: readonly CompletedCommand[]): string {
  const names = commands.map(({ name, does }) => quoted(`${zshText(name)}:${does}`)).join(' ');
  return `#compdef carryover
# Completion of carryover for zsh.
_carryover() {
  local -a commands
  commands=(${names})
  if ((CURRENT == 2)); then
    _describe command commands
    _arguments '--help[print what there is]' '--version[print the version]'
    return
  fi
  local command=$words[2]
  shift words
  ((CURRENT--))
  case $command in
${commands.map(zshCommand).join('\n')}
  esac
}
compdef _carryover carryover
`;
}

/** The shells that are completed, and the line by which each has it. */
export const SHELLS: Readonly<
  Record<Shell, { readonly script: (commands: readonly CompletedCommand[]) => string; readonly use: string }>
> = {
  bash: { script: bashScript, use: 'source <(carryover completion bash)    # in ~/.bashrc' },
  zsh: { script: zshScript, use: 'source <(carryover completion zsh)     # in ~/.zshrc, after compinit' },
};
