import { failures, success, type Result, type Trouble } from '../../core/result';
import { COMMON, isColored, readArgs, STRICT_ROW, UNITS_ROW, type CommandTable } from './option-table';
import { readUnits, type Units } from './units-option';

export interface CheckOptions {
  /** Trip files, and folders of them. */
  readonly paths: readonly string[];
  readonly json: boolean;
  readonly help: boolean;
  readonly strict: boolean;
  readonly isColored: boolean;
  readonly units: Units;
}

export const CHECK = {
  name: 'check',
  takes: 'TRIP...',
  operands: [
    {
      name: 'TRIP',
      help: 'a trip file, - for standard input, or a folder: all trips in it and in the folders below',
    },
  ],
  groups: [
    {
      heading: '',
      rows: [
        { name: 'json', help: 'a line of JSON a trip (carryover/check, version 1) instead of a sentence' },
        STRICT_ROW,
        { ...UNITS_ROW, completed: ['metric', 'imperial'], help: 'metric (default) or imperial' },
        ...COMMON,
      ],
    },
  ],
  exits:
    'One line a trip, in the order they are named, of a folder in the order of their names. Exit 0: every trip was checked, whatever its cautions say. Exit 1: checked, but with --strict a limit is passed. Exit 2: a trip cannot be used; its line says why.',
} as const satisfies CommandTable;

/**
 * Reads the arguments of the command.
 * @param args what follows the command @param hasColors whether the terminal shows any
 * @returns the options, or every trouble with them
 */
export function readCheckOptions(
  args: readonly string[],
  hasColors = false,
): Result<CheckOptions, 'options'> {
  const troubles: Trouble<'options'>[] = [];
  const given = readArgs(args, CHECK, troubles);
  const { operands, values, flags } = given;
  const units = readUnits(values.units, !flags.json, troubles);
  if (units === 'both') {
    const mend = 'Use metric or imperial; a line has one sentence.';
    troubles.push({ kind: 'options', where: '--units', what: 'A line has no room for both.', mend });
  }
  if (operands.length === 0 && !flags.help) {
    const mend = 'Name trip files, or a folder of them.';
    troubles.push({ kind: 'options', where: 'TRIP', what: 'No trip is named.', mend });
  }
  const colored = isColored(given, hasColors, troubles);
  if (troubles.length > 0) return failures(troubles);
  const { json, help, strict } = flags;
  return success({ paths: operands, json, help, strict, isColored: colored, units });
}
