import { cylinder, figure, NOTHING, said, type Said } from '../words/said';
import type { BlendStep, BottleCount, OxygenBottle } from './blending';
import { mixO2 } from '../ledger/mix-choice';
import { mixSaid, ROOM_TEMPERATURE } from '../words/terms';
import type { FillLine, FillMethod, FillPlan, FillRequest, PartialPressureFill } from './fills';
import { isLoopOxygen } from './loop-cylinders';

/** Beside every answer about blending. Source: common practice of the trade. */
export const BLENDING_CAUTION = said`Blending needs training and oxygen-clean gear; every cylinder is analysed before it is dived, by whoever dives it.`;

/** How a cylinder gets its mix. Source: names of the trade. */
export const METHOD_NAMES: Readonly<Record<FillMethod, Said>> = {
  banked: said`from banks of the mix`,
  'partial-pressure': said`by partial pressure: oxygen, then air`,
  continuous: said`by continuous blending`,
  membrane: said`through a membrane`,
};

const FOR_WHAT: Readonly<Record<FillMethod, Said>> = {
  banked: said`to fill the banks for the trip`,
  'partial-pressure': said`for the trip, without a booster`,
  continuous: said`for the trip`,
  membrane: NOTHING,
};

/** How much oxygen the fills take, and in how many bottles. */
export interface OxygenSaid {
  /** What is looked for. */
  readonly lead: Said;
  readonly rest: Said;
  /** Whether it cannot be done as asked. */
  readonly isCare: boolean;
}

/**
 * The answer about bottles of oxygen in a sentence.
 * @param counted from `oxygenBottles` of the same plan, method and bottle
 * Source: as `oxygenBottles`.
 */
export function oxygenSaid(
  plan: FillPlan,
  counted: BottleCount,
  method: FillMethod,
  bottle: OxygenBottle,
): OxygenSaid {
  const { bottles, eachL, downToBar } = counted;
  if (bottles === 0) {
    if (method === 'membrane') {
      const lead = said`A membrane takes no oxygen from bottles.`;
      const rest =
        plan.total.airL === null
          ? said` It takes in more air than it gives gas; how much more, its maker says.`
          : NOTHING;
      return { lead, rest, isCare: false };
    }
    const lead = plan.loopOxygenL > 0 ? said`No oxygen needed for the mixes.` : said`No oxygen needed.`;
    return { lead, rest: NOTHING, isCare: false };
  }
  const oxygen = said`${figure('gasUsed', plan.total.oxygenL - plan.loopOxygenL)} of oxygen`;
  if (bottles === null) {
    const rest = said`, but the cylinders need it to ${figure('pressureNeeded', downToBar)}, and a bottle has no more than ${figure('pressureTyped', bottle.fillBar)}: it takes a booster.`;
    return { lead: oxygen, rest, isCare: true };
  }
  const each = said`each gives ${figure('gasLeft', eachL)} down to ${figure('pressureNeeded', downToBar)}`;
  return {
    lead: said`${bottles} ${bottles === 1 ? said`bottle` : said`bottles`} of oxygen`,
    rest: said` ${FOR_WHAT[method]}: ${oxygen}; ${each}.`,
    isCare: false,
  };
}

/** How the fills were asked for, to stand before figures that follow from it. @param gasIn units of amounts of gas */
export function fillsAskedSaid(request: FillRequest, gasIn: string): Said {
  const left = request.startO2 === null ? said`of their mix` : said`of ${mixSaid(request.startO2)}`;
  const law = request.law === 'ideal' ? said`ideal gas` : said`compressibility at ${ROOM_TEMPERATURE}`;
  return said`${METHOD_NAMES[request.method]}; cylinders come back at ${figure('pressureTyped', request.startBar)} ${left}; gas in ${gasIn} at 1 bar, by ${law}.`;
}

/** The bottles that oxygen comes in. */
export function bottleSaid(bottle: OxygenBottle): Said {
  return said`Oxygen comes in bottles of ${cylinder(bottle)}, full at ${figure('pressureTyped', bottle.fillBar)}.`;
}

/** What the gauge shows after the oxygen of one cylinder; null: it cannot be filled this way. */
export function gaugeSaid(fill: PartialPressureFill | null): Said {
  if (fill === null) return said`not this way`;
  const from = fill.isDrained ? said`let down to ${figure('pressureLeft', fill.fromBar)}, ` : NOTHING;
  return said`${from}oxygen to ${figure('pressureTyped', fill.afterOxygenBar)}`;
}

/** Which cylinder a step is of: "12 L", of a loop "3 L, diluent". */
export function blendedSaid(step: BlendStep): Said {
  return step.isDiluent ? said`${cylinder(step)}, diluent` : said`${cylinder(step)}`;
}

/** What a cylinder is filled with: a mix, or the oxygen of a loop. */
export function gasOfFillSaid({ mix }: Pick<FillLine, 'mix'>): Said {
  return isLoopOxygen(mix) ? said`Oxygen` : mixSaid(mixO2(mix));
}

/** Why the oxygen of loops costs nothing in a sum, and what would mend that. */
export const OXYGEN_WITHOUT_PRICE = said`Oxygen has no price here until a mix of 100 % among those of the trip gives it one.`;

/** How loops are counted among the fills; nothing where there are none. Source: CONVENTIONS, "On a loop". */
export function loopFillsSaid({ loopOxygenL, lines }: FillPlan): Said {
  if (loopOxygenL === 0) return NOTHING;
  const priceless = lines.some(({ cost }) => cost === null) ? said` ${OXYGEN_WITHOUT_PRICE}` : NOTHING;
  return said`Of loops, diluent and oxygen are filled again after each dive by what the plan takes, bail-out once. Into their own cylinders go ${figure('gasUsed', loopOxygenL)} of oxygen, which no bottle above is counted for: where they are fuller than a bottle it takes a booster.${priceless}`;
}

/** What else is to be known of some fills; nothing where there is nothing. */
export function fillNotesSaid({
  drained,
  impossible,
}: Pick<FillLine, 'drained' | 'impossible'>): readonly Said[] {
  return [
    ...(drained > 0 ? [said`${drained} let down first`] : []),
    ...(impossible > 0 ? [said`${impossible} cannot be filled this way`] : []),
  ];
}
