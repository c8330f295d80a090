/** What is typed into the starting sheet, and the answers it makes. */
import { sitesOfDrafts } from '../../../core/formats/site-draft';
import { wallMin, wallText, type WallTime } from '../../../core/words/calendar';
import type { StartingAnswers } from '../../../core/proposal/starting-sheet';
import type { System } from '../../../core/words/quantity';
import type { Diver, Mix, Site, Trip } from '../../../core/document/types';
import { countText } from '../../figures/format';
import type { Viewer } from '../../figures/reader';
import { blankTrip, newDiver } from '../../store/blank-trip';
import { EMPTY_SITE_LIST, readSiteList, type ReadSiteList, type SiteList } from '../sites/site-list';
import { cellAsks, type AskedCell } from './draft-cells';
import { numberedNames } from './lists';
import type { Water } from '../../../core/water';

/** What a new diver begins with. */
export type UsualDiver = Pick<Diver, 'surfaceRateLpm' | 'cylinder' | 'maxDepthM'>;

export interface StartingForm {
  readonly title: string;
  readonly place: string;
  readonly firstDay: string;
  readonly nights: number;
  readonly times: readonly string[];
  /** null: no night dives. */
  readonly night: StartingAnswers['night'];
  readonly rests: boolean;
  readonly longestMin: number;
  readonly list: SiteList;
  readonly rising: boolean;
  readonly names: readonly string[];
  readonly usual: UsualDiver;
  readonly shares: readonly number[];
  readonly flight: WallTime | null;
  readonly water: Water;
  /** Taken over from the trip on screen, in place of what is typed or beside it. */
  readonly takes: { readonly sites: boolean; readonly party: boolean; readonly mixes: boolean };
  /** Whether the reasons go into the notes of the trip. */
  readonly keepsReasons: boolean;
  /** What was said of single dives of the draft. */
  readonly cells: readonly AskedCell[];
}

const DAY_MIN = 1440;

/** The next Saturday after a date: a day to begin with that is seen to be a proposal. */
function nextSaturday(today: string): string {
  const [year = 1970, month = 1, day = 1] = today.split('-').map(Number);
  const weekday = new Date(Date.UTC(year, month - 1, day)).getUTCDay();
  const days = ((6 - weekday + 6) % 7) + 1;
  return wallText(wallMin(`${today}T00:00`) + days * DAY_MIN).slice(0, 10);
}

/** The form before anything is typed. @param today "2027-03-06" @param units what the usual values are round in */
export function freshForm(today: string, units: System): StartingForm {
  const { surfaceRateLpm, cylinder, maxDepthM } = newDiver('', '', units);
  return {
    title: 'New trip',
    place: '',
    firstDay: nextSaturday(today),
    nights: 7,
    times: ['08:00', '11:00', '14:30', '17:30'],
    night: null,
    rests: true,
    longestMin: 60,
    list: EMPTY_SITE_LIST,
    rising: false,
    names: numberedNames(2),
    usual: { surfaceRateLpm, cylinder, maxDepthM },
    shares: [0.21, 0.32],
    flight: null,
    water: blankTrip().water,
    takes: { sites: false, party: false, mixes: false },
    keepsReasons: true,
    cells: [],
  };
}

/** Whether nothing has been said of sites yet: no fault before it is answered, though nothing can be drafted. */
export function isWithoutSites({ list, takes }: StartingForm): boolean {
  return list === EMPTY_SITE_LIST && !takes.sites;
}

/** The flight is first put on the afternoon of the last morning. */
export function firstFlight({ firstDay, nights }: StartingForm): WallTime {
  return wallText(wallMin(`${firstDay}T15:00`) + nights * DAY_MIN);
}

/** The list as it is read beside the sites that are taken over. */
export function listRead(form: StartingForm, open: Trip, reader: Viewer): ReadSiteList {
  const known = form.takes.sites ? open.sites.map(({ name }) => name) : [];
  return readSiteList(form.list, reader, known);
}

function sitesOf(form: StartingForm, open: Trip, read: ReadSiteList): readonly Site[] {
  const taken = form.takes.sites ? open.sites : [];
  const drafts = read.drafts ?? [];
  return [
    ...taken,
    ...sitesOfDrafts(
      drafts,
      taken.map(({ id }) => id),
    ),
  ];
}

function partyOf(form: StartingForm, open: Trip, units: System): readonly Diver[] {
  if (form.takes.party) {
    // What a diver did before the trip on screen is not what they did before this one.
    return open.party.map((diver) => {
      const { before: _, arrivedAt: __, ...rest } = diver;
      return rest;
    });
  }
  return form.names.map((name, at) => ({ ...newDiver(`diver-${at + 1}`, name, units), ...form.usual }));
}

function mixesOf(form: StartingForm, open: Trip): readonly Mix[] {
  if (form.takes.mixes) {
    // An analysis is of a cylinder or a bank of that week.
    return open.mixes.map((mix) => {
      const { analysedO2: _, ...rest } = mix;
      return rest;
    });
  }
  return form.shares.map((o2, at) => ({ id: `mix-${at + 1}`, o2, costPerFill: 0 }));
}

/** What has to be mended in the list before anything can be drafted; null: nothing. */
export function listFault({ sites, drafts }: ReadSiteList): string | null {
  const twin = sites.find(({ isKnown, isWanted }) => isKnown && isWanted);
  if (twin) return `There is a site ${twin.draft.name} already: leave this one out, or give it another name.`;
  return drafts === null ? 'Give each site its depth first.' : null;
}

/** What taking the draft does, said before it is done: rows that were not understood are gone with the list. */
export function takeLabel({ troubles }: ReadSiteList): string {
  if (troubles.length === 0) return 'Use this draft';
  if (troubles.some(({ kind }) => kind !== 'row')) return 'Use this draft without the list';
  return `Use this draft without ${troubles.length === 1 ? 'one row' : `${countText(troubles.length)} rows`}`;
}

/** The answers to draft by; null while the list has a fault. */
export function answersOf(form: StartingForm, open: Trip, reader: Viewer): StartingAnswers | null {
  const read = listRead(form, open, reader);
  if (listFault(read) !== null) return null;
  const { title, place, firstDay, nights, times, night, rests, longestMin, rising, flight, water } = form;
  const sites = sitesOf(form, open, read);
  return {
    title,
    place,
    firstDay,
    nights,
    times,
    night,
    rests,
    longestMin,
    rising,
    cells: cellAsks(form.cells, sites),
    flight,
    water,
    sites,
    party: partyOf(form, open, reader.units),
    mixes: mixesOf(form, open),
    settings: blankTrip(reader.units).settings,
    depthUnit: reader.units === 'imperial' ? 'ft' : 'm',
  };
}
