/** What a briefing says of a day, in words and rounded for good: limits down, exposures and what must be left up. */
import { denseSentence } from '../../cautions/gas-dense';
import { toldTogether } from '../../cautions/told-together';
import type { Id } from '../../document/types';
import type { DiverLedger, Entry } from '../../ledger/ledger-types';
import { roomMinutes } from '../../ledger/room';
import { tightestOf } from '../../ledger/tightest';
import { wallDate } from '../../words/calendar';
import { capital, inOneSystem, shown, wordsOf } from '../../words/reader';
import {
  dayOf,
  figure,
  inRow,
  listed,
  moment,
  NOTHING,
  said,
  sentences,
  type Figure,
  type Piece,
  type Said,
} from '../../words/said';
import { breathedSaid } from '../../ledger/breathed-said';
import { countSaid, SEVERITIES } from '../../words/terms';
import { numberOf } from '../card/content';
import { stressed, unmarked } from '../markup';
import { slateReader } from '../reading';
import type { DatedRequest } from '../request';
import { deedsOfDay } from './changed';
import { briefDive, nameOf, roomSaid, type BriefDive, type Context, type Together } from './one-dive';
import { groupsOf, missingOf, type BriefGroup } from './pressures';

export interface BriefDay {
  readonly date: string;
  readonly day: string;
  readonly where: string;
  readonly sentence: string;
  readonly dives: readonly BriefDive[];
  readonly groups: readonly BriefGroup[];
  /** Why a figure is not there. */
  readonly missing: readonly string[];
  readonly cautions: readonly string[];
  /** null: nothing is known to compare with. */
  readonly changes: readonly string[] | null;
  /** "since Wed 17, 06:55"; empty where that is not known. */
  readonly changedSince: string;
  readonly depthUnit: string;
  readonly pressureUnit: string;
}
/** A caution with whom and which dive it is about, as the sheet numbers them. */
function cautionsOf(
  { trip, words }: Context,
  request: DatedRequest,
  chosen: readonly DiverLedger[],
  dives: readonly Together[],
): readonly string[] {
  const numbers = new Map(dives.map(({ id, entries }) => [id, numberOf(trip, entries[0]!.dive)]));
  const ours = request.cautions.filter(
    ({ diveId, diverId, severity }) =>
      (diveId === null ? severity !== 'know' : numbers.has(diveId)) &&
      (diverId === null || chosen.some(({ diver }) => diver.id === diverId)),
  );
  // Said once for the whole trip, but to be known before each of these dives.
  const dense = denseSentence(dives, trip);
  return [
    ...toldTogether(ours).map(({ caution, diverIds }) => {
      const names = trip.party.filter(({ id }) => diverIds.includes(id)).map(({ name }) => unmarked(name));
      const number = caution.diveId === null ? undefined : numbers.get(caution.diveId);
      const about = inRow([
        ...(names.length === 0 ? [] : [listed(names)]),
        ...(number === undefined ? [] : [said`dive ${number}`]),
      ]);
      const head =
        names.length === 0 && number === undefined
          ? said`${SEVERITIES[caution.severity]}`
          : said`${SEVERITIES[caution.severity]}, ${about}`;
      return words(said`${stressed(head)}. ${caution.says}`);
    }),
    ...(dense === null ? [] : [words(said`${stressed(SEVERITIES.know)}. ${dense}`)]),
  ];
}

/** More than so many divers are counted in the first sentence. */
const NAMED = 3;

/** "Four dives on two mixes for a party of six. Tightest: dive 3, 6 min to gas for Guest 1." */
function sentenceSaid(
  { trip, words }: Context,
  dives: readonly Together[],
  party: number,
  tightest: readonly Entry[],
): Said {
  const entries = dives.flatMap((dive) => dive.entries);
  const mixes = new Set(
    entries.flatMap((entry) => (entry.isMade && entry.loop === null ? [words(breathedSaid(entry))] : [])),
  );
  const many: Piece = dives.length === 1 ? said`one dive` : said`${countSaid(dives.length)} dives`;
  const gases: readonly Said[] = [
    ...(mixes.size === 0 ? [] : [mixes.size === 1 ? said`one mix` : said`${countSaid(mixes.size)} mixes`]),
    ...(entries.some(({ loop }) => loop !== null) ? [said`a loop`] : []),
  ];
  const on: Piece = gases.length === 0 ? NOTHING : said` on ${listed(gases)}`;
  const whose = party === 1 ? said`for one diver` : said`for a party of ${countSaid(party)}`;
  const [least] = tightest;
  if (least === undefined) return said`${many}${on} ${whose}.`;
  const number = numberOf(trip, least.dive);
  const names = tightest.filter(({ dive }) => dive.id === least.dive.id).map(nameOf);
  // The dive names them all.
  const who = names.length > NAMED ? said`${countSaid(names.length)} divers` : listed(names);
  const tight = said`Tightest: dive ${number}, ${roomSaid(trip, least)} for ${who}.`;
  return sentences([said`${many}${on} ${whose}.`, said`${stressed(tight)}`]);
}

/** The days that are asked for, in order of the calendar. */
export function briefDays(request: DatedRequest): readonly BriefDay[] {
  const { ledger, diverIds, dates } = request;
  const { trip } = ledger;
  const reader = slateReader(request);
  const context: Context = { trip, reader, words: wordsOf(inOneSystem(reader)), figures: wordsOf(reader) };
  const chosen = ledger.divers.filter(({ diver }) => diverIds === null || diverIds.includes(diver.id));
  const days = [...new Set(trip.dives.map(({ startsAt }) => startsAt.slice(0, 10)))];
  const unit = (of: Figure): string =>
    shown(of, reader)
      .map((each) => each.unit)
      .join(' / ');
  return dates.toSorted().flatMap((date): readonly BriefDay[] => {
    const entries = chosen.flatMap((mine) =>
      mine.entries.filter(({ startMin }) => wallDate(startMin) === date),
    );
    if (entries.length === 0) return [];
    const starts = (id: Id): number =>
      Math.min(...entries.filter(({ dive }) => dive.id === id).map(({ startMin }) => startMin));
    const ids = [...new Set(entries.map(({ dive }) => dive.id))].toSorted((a, b) => starts(a) - starts(b));
    const dives = ids.map((id) => ({ id, entries: entries.filter(({ dive }) => dive.id === id) }));
    const made = entries.filter(({ isMade }) => isMade);
    const tightest = tightestOf(made, (entry) => roomMinutes(trip, entry));
    const place = unmarked(trip.place);
    const at = days.indexOf(date);
    const ofDays = said`day ${at + 1} of ${days.length}`;
    const { since } = request;
    const deeds = since === null ? null : deedsOfDay(since.trip, trip, date);
    return [
      {
        date,
        day: wordsOf({ ...reader, dates: 'full' })(said`${dayOf(date)}`),
        where: context.words(place === '' ? ofDays : said`${place}, ${ofDays}`),
        sentence: capital(context.words(sentenceSaid(context, dives, chosen.length, tightest))),
        dives: dives.map((dive) => briefDive(context, dive, tightest)),
        groups: groupsOf(context, chosen, dives),
        missing: missingOf(context, dives),
        cautions: cautionsOf(context, request, chosen, dives),
        changes: deeds?.map(context.words) ?? null,
        changedSince:
          since === null || since.at === null ? '' : context.words(said`since ${moment(since.at)}`),
        depthUnit: unit(figure('depthSet', 0)),
        pressureUnit: unit(figure('pressureNeeded', 0)),
      },
    ];
  });
}
