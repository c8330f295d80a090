import { HIGHEST_INCREASE_FT } from '../tables/procedure';
import { M_PER_FOOT } from '../units';
import { momentAt } from '../words/calendar';
import { figure, said, span, type Said } from '../words/said';
import type { FlightViewKind, FlightViews, TableFlightView } from './flight-views';
import type { FlyingRow } from './flying';

const AFTER: Readonly<Record<FlyingRow, Said>> = {
  oneNoStopDive: said`after one no-stop dive`,
  severalDivesOrDays: said`after several dives or days of diving`,
  requiredStops: said`after a dive with required stops`,
  unknownMix: said`after a dive whose mix is not known`,
};

/** After what the published hours are counted: "after one no-stop dive". */
export function flyingRowSaid(row: FlyingRow): Said {
  return AFTER[row];
}

/** One view of when flying is clear, for a list of all three. */
export interface FlightLine {
  readonly kind: FlightViewKind;
  readonly name: Said;
  /** The moment; null where the view has none. */
  readonly clear: Said | null;
  /** How it comes about, or why there is no moment. */
  readonly why: Said;
  /** This one counts: it asks for the longest wait. */
  readonly isLatest: boolean;
}

/** Whose hours they are. */
export const FLIGHT_VIEW_NAMES: Readonly<Record<FlightViewKind, Said>> = {
  guideline: said`Published hours`,
  table: said`Government table`,
  model: said`The model`,
};

function whyGuideline({ guideline }: FlightViews): Said {
  return said`${guideline.hours} h ${AFTER[guideline.row]}`;
}

/** How long the table has a diver wait, and after what: "9 h 41 min from group I, the highest of the last 24 h". */
export function tableWaitSaid({ waitMin, group, isAtLeast }: TableFlightView): Said {
  const wait = said`${span(waitMin, 'up')} from group ${group}, the highest of the last 24 h`;
  if (!isAtLeast) return wait;
  return said`at least ${wait}, as the table ends at a climb of ${figure('altitude', HIGHEST_INCREASE_FT * M_PER_FOOT)}`;
}

function whyTable({ table, cabinAltitudeM }: FlightViews): Said {
  if (table.clearMin === null) return said`not told: ${table.reason}`;
  return said`${tableWaitSaid(table)}, to a cabin at ${figure('altitude', cabinAltitudeM)}`;
}

function whyModel({ model, cabinAltitudeM }: FlightViews): Said {
  if (model.clearMin === null) return said`not told: ${model.reason}`;
  const cabin = figure('altitude', cabinAltitudeM);
  return model.compartment === null
    ? said`tolerates a cabin at ${cabin} on surfacing; it may lengthen the hours and never shortens them`
    : said`compartment ${model.compartment} is the last to tolerate a cabin at ${cabin}; it may lengthen the hours and never shortens them`;
}

/**
 * The three views, one line each, for whoever asks why flying is clear only then.
 * @returns in the order of the sources: published hours, table, model
 * Source: as `flightViews`.
 */
export function flightLines(views: FlightViews): readonly FlightLine[] {
  const whys = { guideline: whyGuideline, table: whyTable, model: whyModel };
  return (['guideline', 'table', 'model'] as const).map((kind) => {
    const { clearMin } = views[kind];
    return {
      kind,
      name: FLIGHT_VIEW_NAMES[kind],
      clear: clearMin === null ? null : said`${momentAt(clearMin)}`,
      why: whys[kind](views),
      isLatest: views.latest === kind,
    };
  });
}
