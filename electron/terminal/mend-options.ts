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
import { parsedArgs } from './parsed-args';
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

export const USAGE = `npm run --silent mend -- [TRIP] [options]

  TRIP               a trip file; without one the demo trip is used
  --done-before TIME dives that start before this are done, as in --done-before 2027-03-17T06:00;
                     those that are logged always are
  --dive ID          mend the cautions of this dive alone, bringing none on another
  --least-room MIN   minutes of room to leave on every dive that is changed; 0 without it
  --costs LIST       points of 5 min later, 1 m or 3 ft shallower, 1 min shorter, another mix, a diver
                     left out, a dive dropped; those not named stay, as in --costs shorter=3,mix=1.
                     Usual: ${USUAL}
  --feet             go shallower in steps of 3 ft; --units imperial does too
  --json             print JSON (carryover/mending, version 1) instead of text
  --apply N          write the trip with proposal N carried out, to the file named with --out
  --out FILE         where to write it
  --replace          FILE may be there already, even as the trip itself
  --units UNITS      metric (default), imperial or both
  --help             print this

Exit 0: worked out, whether or not anything can be proposed. Exit 2: something cannot be used; standard
error says what, where and how to mend it, and nothing is written.
`;

const OPTIONS = {
  json: { type: 'boolean' },
  help: { type: 'boolean' },
  feet: { type: 'boolean' },
  replace: { type: 'boolean' },
  units: { type: 'string' },
  'done-before': { type: 'string' },
  dive: { type: 'string' },
  'least-room': { type: 'string' },
  costs: { type: 'string' },
  apply: { type: 'string' },
  out: { type: 'string' },
} as const;

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
 * @param args what follows the command
 * @returns the options, or every trouble with them
 */
export function readMendOptions(args: readonly string[]): Result<MendOptions, 'options'> {
  const parsed = parsedArgs(args, OPTIONS);
  if (!parsed.ok) return parsed;
  const { values, positionals } = parsed.value;
  const troubles: Troubles = [];
  if (positionals.length > 1) {
    const mend = 'Put names with blanks in quotation marks.';
    troubles.push(trouble(positionals[1]!, 'One trip is looked at at a time.', mend));
  }
  const { apply, out, replace } = values;
  if (apply !== undefined && out === undefined) {
    troubles.push(trouble('--apply', 'Nothing says where to write the mended trip.', 'Give --out FILE too.'));
  }
  if (apply === undefined && out !== undefined) {
    troubles.push(trouble('--out', 'Nothing says what to write there.', 'Give --apply N too.'));
  }
  if (replace && out === undefined) {
    troubles.push(trouble('--replace', 'It lets a file be replaced, but none is written.', 'Leave it out.'));
  }
  const units = readUnits(values.units, values.json !== true, troubles);
  const isFeet = values.feet === true || units === 'imperial';
  const leastRoom = values['least-room'];
  const options: MendOptions = {
    trip: positionals[0] ?? null,
    json: values.json ?? false,
    help: values.help ?? false,
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
            mayReplace: replace ?? false,
          },
    units,
  };
  return troubles.length > 0 ? failures(troubles) : success(options);
}
