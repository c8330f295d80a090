/** Exercises of one step: pressure, PO2, MOD, EAD and the richest mix. */
import { AIR_O2 } from '../gas';
import { fraction, type Formula } from '../words/formula';
import { said, worked, type Said } from '../words/said';
import { mixSaid } from '../words/terms';
import {
  depthSaid,
  isRound,
  plain,
  pressureAt,
  pressureSaid,
  shortest,
  type Exercise,
  type Ruler,
} from './exercise';

/** Whole percents that are blended and banked. Source: common practice. */
export const PERCENTS = Array.from({ length: 19 }, (_, i) => i + 22);

const AIR_PERCENT = 21;
const WITH_AIR = [AIR_PERCENT, ...PERCENTS];

/** The limits of PO2 that are taught and used. Source: CONVENTIONS, "PO2 and mixes"; the lower ones are common practice. */
const PO2_LIMITS = [1.2, 1.3, 1.4, 1.5, 1.6];

/** The limit that exercises keep to where none is named. Source: CONVENTIONS, "PO2 and mixes". */
export const WORKING_PO2 = 1.4;

/** Within a sentence air is a common noun. */
export function gasSaid(percent: number): Said {
  return percent === AIR_PERCENT ? said`air` : mixSaid(percent / 100);
}

function pressureWorking(depth: number, ruler: Ruler): Formula {
  return [fraction([shortest(depth)], [ruler.step]), '+ 1'];
}

function pressures(ruler: Ruler, isEasy: boolean): readonly Exercise[] {
  return (isEasy ? ruler.easyDepths : ruler.depths).flatMap((depth): readonly Exercise[] => {
    const pressure = pressureAt(depth, ruler);
    const shared = { kind: 'pressure', notes: [], rows: null } as const;
    return [
      {
        ...shared,
        given: { depth },
        asks: said`A mooring lies at ${depthSaid(depth, ruler)}. What is the pressure there?`,
        answer: { value: pressure, decimals: 1, unit: ruler.pressureUnit },
        working: pressureWorking(depth, ruler),
      },
      {
        ...shared,
        given: { pressure },
        asks: said`At what depth is the pressure ${pressureSaid(pressure, ruler)}?`,
        answer: { value: depth, decimals: 0, unit: ruler.depthUnit },
        working: ['(', shortest(pressure, 1), '− 1) ×', ruler.step],
      },
    ];
  });
}

function po2s(ruler: Ruler, isEasy: boolean): readonly Exercise[] {
  return WITH_AIR.flatMap((percent) =>
    (isEasy ? ruler.easyDepths : ruler.depths).flatMap((depth): readonly Exercise[] => {
      const pressure = pressureAt(depth, ruler);
      const po2 = plain((percent / 100) * pressure);
      if (po2 > WORKING_PO2 || !isRound(po2, 2)) return [];
      return [
        {
          kind: 'po2',
          given: { oxygenPercent: percent, depth },
          asks: said`A diver breathes ${gasSaid(percent)} at ${depthSaid(depth, ruler)}. What is the PO2?`,
          answer: { value: po2, decimals: 2, unit: ruler.pressureUnit },
          working: [
            worked(percent / 100, 2),
            '× (',
            ...pressureWorking(depth, ruler),
            ') =',
            worked(percent / 100, 2),
            '×',
            shortest(pressure, 1),
          ],
          notes: [],
          rows: null,
        },
      ];
    }),
  );
}

/** Mixes and limits whose MOD is a whole depth at a pressure of one decimal, within the deepest. */
function wholeMods(
  ruler: Ruler,
): readonly { readonly percent: number; readonly limit: number; readonly depth: number }[] {
  return PO2_LIMITS.flatMap((limit) =>
    PERCENTS.flatMap((percent) => {
      const pressure = plain(limit / (percent / 100));
      const depth = plain((pressure - 1) * ruler.step);
      return isRound(pressure, 1) && isRound(depth, 0) && depth <= ruler.deepest
        ? [{ percent, limit, depth: Math.round(depth) }]
        : [];
    }),
  );
}

function mods(ruler: Ruler): readonly Exercise[] {
  return wholeMods(ruler).map(({ percent, limit, depth }) => {
    const pressure = plain(limit / (percent / 100));
    return {
      kind: 'mod',
      given: { oxygenPercent: percent, po2Limit: limit },
      asks: said`How deep may ${gasSaid(percent)} be breathed at a PO2 of at most ${pressureSaid(limit, ruler)}?`,
      answer: { value: depth, decimals: 0, unit: ruler.depthUnit },
      working: [
        fraction([worked(limit, 1)], [worked(percent / 100, 2)]),
        '=',
        pressureSaid(pressure, ruler),
        ', (',
        shortest(pressure, 1),
        '− 1) ×',
        ruler.step,
      ],
      notes: [],
      rows: null,
    };
  });
}

function richests(ruler: Ruler): readonly Exercise[] {
  return wholeMods(ruler).map(({ percent, limit, depth }) => ({
    kind: 'richest',
    given: { depth, po2Limit: limit },
    asks: said`A dive goes to ${depthSaid(depth, ruler)}. What is the richest mix for it at a PO2 of at most ${pressureSaid(limit, ruler)}?`,
    answer: { value: percent, decimals: 0, unit: '%' },
    working: [
      fraction([worked(limit, 1)], pressureWorking(depth, ruler)),
      '=',
      fraction([worked(limit, 1)], [shortest(pressureAt(depth, ruler), 1)]),
      '=',
      worked(percent / 100, 2),
    ],
    notes: [],
    rows: null,
  }));
}

/** An equivalent depth counts as whole where it falls short of it by no more than this. Source: choice of this project. */
const NEARLY_WHOLE = 0.05;

/** The depths at which equivalent depths in feet come out whole: 0.79 goes into (depth + 33) there. */
const EAD_FEET = [46, 125];

function eads(ruler: Ruler): readonly Exercise[] {
  const depths = ruler.system === 'metric' ? ruler.depths : EAD_FEET;
  return PERCENTS.flatMap((percent) =>
    depths.flatMap((depth): readonly Exercise[] => {
      const nitrogen = plain(1 - percent / 100);
      const column = plain(((depth + ruler.step) * nitrogen) / (1 - AIR_O2));
      const exact = column - ruler.step;
      const whole = Math.ceil(exact - 1e-6);
      const isAllowed = (percent / 100) * pressureAt(depth, ruler) <= WORKING_PO2 + 1e-9;
      if (!isAllowed || whole - exact > NEARLY_WHOLE || whole <= 0) return [];
      return [
        {
          kind: 'ead',
          given: { oxygenPercent: percent, depth },
          asks: said`A dive to ${depthSaid(depth, ruler)} is made on ${gasSaid(percent)}. At what depth would air give the same nitrogen?`,
          answer: { value: whole, decimals: 0, unit: ruler.depthUnit },
          working: [
            fraction(['(', depth, '+', ruler.step, ') ×', worked(nitrogen, 2)], [worked(1 - AIR_O2, 2)]),
            '−',
            ruler.step,
            '=',
            worked(column, 2),
            '−',
            ruler.step,
          ],
          notes: [],
          rows: null,
        },
      ];
    }),
  );
}

/** Every exercise of a kind of one step. @param isEasy whether only the depths of a first lesson are asked about */
const ALL: Readonly<
  Record<
    'pressure' | 'po2' | 'mod' | 'ead' | 'richest',
    (ruler: Ruler, isEasy: boolean) => readonly Exercise[]
  >
> = { pressure: pressures, po2: po2s, mod: mods, ead: eads, richest: richests };

export type SingleKind = keyof typeof ALL;

/**
 * Every exercise of a kind whose numbers come out round: PO2 to the hundredth, MOD and richest mix whole, EAD no more
 * than 0.05 short of whole, all within the limits of PO2 and depth.
 * @returns in a fixed order, the same every time
 * Source: Dalton’s law; MOD, EAD and richest mix as in CONVENTIONS, "PO2 and mixes", by the rule of thumb.
 */
export function singleExercises(kind: SingleKind, ruler: Ruler, isEasy: boolean): readonly Exercise[] {
  return ALL[kind](ruler, isEasy);
}
