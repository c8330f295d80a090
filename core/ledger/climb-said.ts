import { momentAt } from '../words/calendar';
import { figure, NOTHING, said, type Said } from '../words/said';
import type { ClimbViews } from './climb-views';
import { FLIGHT_VIEW_NAMES, flyingRowSaid, tableWaitSaid, type FlightLine } from './flight-said';

function whyGuideline({ guideline }: ClimbViews): Said {
  if (guideline === null) return said`not asked for a climb of less than ${figure('altitude', 300)}`;
  return said`${guideline.hours} h ${flyingRowSaid(guideline.row)}`;
}

function whyTable({ table, climb }: ClimbViews): Said {
  if (table.clearMin === null) return said`not told: ${table.reason}`;
  return said`${tableWaitSaid(table)}, up to ${figure('altitude', climb.toM)}`;
}

function whyModel({ model, climb }: ClimbViews): Said {
  if (model.clearMin === null) return said`not told: ${model.reason}`;
  const height = figure('altitude', climb.toM);
  return model.compartment === null
    ? said`tolerates ${height} on surfacing`
    : said`compartment ${model.compartment} is the last to tolerate ${height}`;
}

/**
 * When a diver may go up, by each view, for whoever asks why only then.
 * @returns in the order of the sources: published hours, table, model
 * Source: as `climbViews`.
 */
export function climbLines(views: ClimbViews): readonly FlightLine[] {
  const whys = { guideline: whyGuideline, table: whyTable, model: whyModel };
  return (['guideline', 'table', 'model'] as const).map((kind) => {
    const clearMin = views[kind]?.clearMin ?? null;
    return {
      kind,
      name: FLIGHT_VIEW_NAMES[kind],
      clear: clearMin === null ? null : said`${momentAt(clearMin)}`,
      why: whys[kind](views),
      isLatest: views.latest === kind,
    };
  });
}

/** What goes up: "Over the pass, 2,100 m". */
export function climbNameSaid({ climb: { event, dive, toM } }: ClimbViews, siteName: string): Said {
  return said`${event?.title ?? siteName}${dive === null ? NOTHING : said` (a dive there)`}, ${figure('altitude', toM)}`;
}
