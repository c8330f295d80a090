import {
  DEAREST,
  FEET_STEPS,
  METRIC_STEPS,
  USUAL_COSTS,
  type MoveCosts,
  type MoveSteps,
} from '../../core/proposal/mend/moves';
import { MOST_ROOM_MIN } from '../../core/proposal/mend/request';
import { failures, success, type Result, type Trouble } from '../../core/result';
import { wallMinIfReal, type WallMin } from '../../core/words/calendar';
import { COMMON, isColored, readArgs, TRIP_OPERAND, UNITS_ROW, type CommandTable } from './option-table';
import { readUnits, type Units } from './units-option';

/** What the command was asked for. */
export interface MendOptions {
  /** null: the demo trip. */
  readonly trip: string | null;
  readonly json: boolean;
  readonly doneBeforeMin: WallMin | null;
  /** The dive whose cautions alone are to go; null: those of all. */
  readonly diveId: string | null;
  readonly leastRoomMin: number;
  readonly steps: MoveSteps;
  readonly costs: MoveCosts;
  /** The proposal to write, from 1, and where to; null: nothing is written. */
  readonly apply: { readonly number: number; readonly out: string; readonly mayReplace: boolean } | null;
  readonly units: Units;
  readonly help: boolean;
  readonly isColored: boolean;
}

/** The costs as they are named on the command line. */
const COST_NAMES: Readonly<Record<string, keyof MoveCosts>> = {
  later: 'later',
  shallower: 'shallower',
  shorter: 'shorter',
  mix: 'mix',
  'leave-out': 'leaveOut',
  drop: 'drop',
};

const USUAL = Object.entries(COST_NAMES)
  .map(([name, key]) => `${name}=${USUAL_COSTS[key]}`)
  .join(',');

export const MEND = {
  name: 'mend',
  takes: '[TRIP]',
  operands: [TRIP_OPERAND],
  groups: [
    {
      heading: '',
      rows: [
        {
          name: 'done-before',
          value: 'TIME',
          example: 'a moment, as in --done-before 2027-03-17T06:00',
          help: 'dives that start before this are done, as in --done-before 2027-03-17T06:00; those that are logged always are',
        },
        {
          name: 'dive',
          value: 'ID',
          example: 'the id of a dive, as in --dive d13',
          help: 'mend the cautions of this dive alone, bringing none on another',
        },
        {
          name: 'least-room',
          value: 'MIN',
          example: 'minutes, as in --least-room 5',
          help: 'minutes of room to leave on every dive that is changed; 0 without it',
        },
        {
          name: 'costs',
          value: 'LIST',
          example: 'points, as in --costs shorter=3,mix=1',
          help: `points of 5 min later, 1 m or 3 ft shallower, 1 min shorter, another mix, a diver left out, a dive dropped; those not named stay, as in --costs shorter=3,mix=1. Usual: ${USUAL}`,
        },
        { name: 'feet', help: 'go shallower in steps of 3 ft; --units imperial does too' },
        { name: 'json', help: 'print JSON (carryover/mending, version 1) instead of text' },
        {
          name: 'apply',
          value: 'N',
          example: 'the number of a proposal, as in --apply 1',
          help: 'write the trip with proposal N carried out, to the file named with --out',
        },
        {
          name: 'out',
          value: 'FILE',
          example: 'a file to write, as in --out mended.carryover',
          completed: 'file',
          help: 'where to write it; - prints it in the place of the answer',
        },
        { name: 'replace', help: 'FILE may be there already, even as the trip itself' },
        UNITS_ROW,
        ...COMMON,
      ],
    },
  ],
  exits:
    'Exit 0: worked out, whether or not anything can be proposed. Exit 2: something cannot be used; standard error says what, where and how to mend it, and nothing is written.',
} as const satisfies CommandTable;

type Troubles = Trouble<'options'>[];

function trouble(where: string, what: string, mend: string): Trouble<'options'> {
  return { kind: 'options', what, where, mend };
}

/** A whole number within a range. */
function readWhole(where: string, text: string, min: number, max: number, troubles: Troubles): number {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!Number.isInteger(value) || value < min || value > max) {
    troubles.push(
      trouble(where, `"${text}" is no whole number from ${min} to ${max}.`, 'Write one that is.'),
    );
    return min;
  }
  return value;
}

function readCosts(text: string | undefined, troubles: Troubles): MoveCosts {
  const costs: { -readonly [Key in keyof MoveCosts]: number } = { ...USUAL_COSTS };
  for (const part of text?.split(',') ?? []) {
    const [name = '', value = ''] = part.split('=', 2).map((each) => each.trim());
    const key = Object.hasOwn(COST_NAMES, name) ? COST_NAMES[name] : undefined;
    if (key === undefined) {
      const names = Object.keys(COST_NAMES).join(', ');
      troubles.push(trouble('--costs', `"${name}" is no move.`, `Name them ${names}, each with =POINTS.`));
    } else costs[key] = readWhole('--costs', value, 1, DEAREST, troubles);
  }
  return costs;
}

function readMoment(text: string | undefined, troubles: Troubles): WallMin | null {
  if (text === undefined) return null;
  const min = wallMinIfReal(text);
  if (min === null) {
    troubles.push(
      trouble(
        '--done-before',
        `"${text}" is no moment.`,
        'Write it as in 2027-03-17T06:00, at the trip’s place.',
      ),
    );
  }
  return min;
}

/**
 * Reads the arguments of the command.
 * @param args what follows the command @param hasColors whether the terminal shows any
 * @returns the options, or every trouble with them
 */
export function readMendOptions(args: readonly string[], hasColors = false): Result<MendOptions, 'options'> {
  const troubles: Troubles = [];
  const given = readArgs(args, MEND, troubles);
  const { operands, values, flags } = given;
  if (operands.length > 1) {
    const mend = 'Put names with blanks in quotation marks.';
    troubles.push(trouble(operands[1]!, 'One trip is looked at at a time.', mend));
  }
  const { apply, out } = values;
  if (apply !== undefined && out === undefined) {
    troubles.push(trouble('--apply', 'Nothing says where to write the mended trip.', 'Give --out FILE too.'));
  }
  if (apply === undefined && out !== undefined) {
    troubles.push(trouble('--out', 'Nothing says what to write there.', 'Give --apply N too.'));
  }
  if (flags.replace && out === undefined) {
    troubles.push(trouble('--replace', 'It lets a file be replaced, but none is written.', 'Leave it out.'));
  }
  const units = readUnits(values.units, !flags.json, troubles);
  const isFeet = flags.feet || units === 'imperial';
  const leastRoom = values['least-room'];
  const options: MendOptions = {
    trip: operands[0] ?? null,
    json: flags.json,
    help: flags.help,
    isColored: isColored(given, hasColors, troubles),
    doneBeforeMin: readMoment(values['done-before'], troubles),
    diveId: values.dive ?? null,
    leastRoomMin:
      leastRoom === undefined ? 0 : readWhole('--least-room', leastRoom, 0, MOST_ROOM_MIN, troubles),
    steps: isFeet ? FEET_STEPS : METRIC_STEPS,
    costs: readCosts(values.costs, troubles),
    apply:
      apply === undefined || out === undefined
        ? null
        : {
            number: readWhole('--apply', apply, 1, Number.MAX_SAFE_INTEGER, troubles),
            out,
            mayReplace: flags.replace,
          },
    units,
  };
  return troubles.length > 0 ? failures(troubles) : success(options);
}
