import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../../core/document/demo-trip';
import { startingSheet } from '../../../../../core/proposal/starting-sheet';
import { toUnit } from '../../../../../core/words/quantity';
import { askedOf, lockOf, swapped } from '../../../../../renderer/places/starting/draft-cells';
import { listOf } from '../../../../../renderer/places/sites/site-list';
import {
  answersOf,
  firstFlight,
  freshForm,
  takeLabel,
  listFault,
  listRead,
} from '../../../../../renderer/places/starting/starting-form';

const METRIC = { units: 'metric', clock: '24h' } as const;

const open = demoTrip();
const form = { ...freshForm('2027-03-03', 'metric'), list: listOf('Gull Steps, 14\nFar Bank, 26') };

describe('freshForm', () => {
  it.each([
    ['2027-03-03', '2027-03-06'],
    ['2027-03-06', '2027-03-13'],
    ['2027-03-07', '2027-03-13'],
    ['2026-12-27', '2027-01-02'],
  ])('proposes the Saturday after %s', (today, saturday) => {
    expect(freshForm(today, 'metric').firstDay).toBe(saturday);
  });
});

describe('the usual diver', () => {
  it('is round in feet, psi and cubic feet where those are counted', () => {
    const { usual } = freshForm('2027-03-03', 'imperial');
    const shown = (si: number, kind: 'depth' | 'pressure' | 'volume' | 'gas-rate') =>
      toUnit(si, kind, 'imperial');
    const { waterL, fillBar, reserveBar } = usual.cylinder;
    expect(shown(usual.maxDepthM, 'depth')).toBeCloseTo(100, 9);
    expect(shown(fillBar, 'pressure')).toBeCloseTo(3000, 9);
    expect(shown(reserveBar, 'pressure')).toBeCloseTo(700, 9);
    expect(shown(waterL * fillBar, 'volume')).toBeCloseTo(80, 9);
    expect(shown(usual.surfaceRateLpm, 'gas-rate')).toBeCloseTo(0.65, 9);
    const answers = answersOf({ ...form, usual }, open, { units: 'imperial', clock: '12h' })!;
    expect(toUnit(answers.settings.ascentMPerMin, 'speed', 'imperial')).toBeCloseTo(30, 9);
    expect(toUnit(answers.settings.descentMPerMin, 'speed', 'imperial')).toBeCloseTo(60, 9);
  });
});

describe('what is said of single dives', () => {
  const draftOf = (change: Partial<typeof form> = {}) => {
    const result = startingSheet(answersOf({ ...form, ...change }, open, METRIC)!);
    if (!result.ok) throw new Error('not drafted');
    return result.value;
  };

  it('swaps the sites of two dives, and takes that back', () => {
    const draft = draftOf();
    const [one, two] = draft.cells;
    const cells = swapped([], draft, one!, two!);
    const names = (made: typeof draft) =>
      made.trip.dives.slice(0, 2).map(({ siteId }) => made.trip.sites.find(({ id }) => id === siteId)!.name);
    expect(names(draft)).toEqual(['Far Bank', 'Gull Steps']);
    expect(names(draftOf({ cells }))).toEqual(['Gull Steps', 'Far Bank']);
    expect(askedOf(askedOf(cells, one!.startsAt, null), two!.startsAt, null)).toEqual([]);
  });

  it('keeps a locked dive as it is, by the name of its site, whatever its id becomes', () => {
    const draft = draftOf();
    const dive = draft.trip.dives[0]!;
    const cells = askedOf([], dive.startsAt, lockOf(draft.trip, dive));
    const longer = draftOf({ cells, list: listOf('New Reef, 18\nGull Steps, 14\nFar Bank, 26') });
    expect(longer.cells[0]!.state).toBe('locked');
    const { siteId, depthM, bottomMin } = longer.trip.dives[0]!;
    expect({ depthM, bottomMin }).toEqual({ depthM: dive.depthM, bottomMin: dive.bottomMin });
    expect(longer.trip.sites.find(({ id }) => id === siteId)!.name).toBe('Far Bank');
    // A site that is gone takes what was said of it along.
    expect(draftOf({ cells, list: listOf('New Reef, 18') }).cells[0]!.state).toBe('drafted');
  });

  it('moves a dive to a place that was empty, and leaves its own empty', () => {
    const draft = draftOf({ cells: [{ kind: 'drop', startsAt: draftOf().cells[0]!.startsAt }] });
    const [empty, full] = draft.cells;
    expect([empty!.state, full!.state]).toEqual(['dropped', 'drafted']);
    const moved = draftOf({ cells: swapped([], draft, empty!, full!) });
    expect(moved.cells.slice(0, 2).map(({ state }) => state)).toEqual(['drafted', 'dropped']);
  });
});

describe('the list of sites', () => {
  const readOf = (text: string, wanted = {}) =>
    listRead({ ...form, list: { ...listOf(text), wanted } }, open, METRIC);

  it('says before it is laid out without rows that were not understood', () => {
    expect(
      ['Gull Steps, 14', 'Gull Steps, 14\nFar Bank', 'Gull Steps, 14\nFar Bank\nNova,x', '<gpx'].map((text) =>
        takeLabel(readOf(text)),
      ),
    ).toEqual([
      'Use this draft',
      'Use this draft without one row',
      'Use this draft without two rows',
      'Use this draft without the list',
    ]);
  });

  it('lays nothing out while a site of a name that is there is wanted by hand', () => {
    const text = 'Nova, 14\nnova, 20';
    expect(listFault(readOf(text))).toBe(null);
    expect(listFault(readOf(text, { 1: true }))).toBe(
      'There is a site nova already: leave this one out, or give it another name.',
    );
    expect(answersOf({ ...form, list: { ...listOf(text), wanted: { 1: true } } }, open, METRIC)).toBe(null);
  });
});

describe('answersOf', () => {
  it('makes answers that lay out a trip, from the form alone', () => {
    const answers = answersOf(form, open, METRIC)!;
    expect(answers.sites.map(({ name, depthM }) => [name, depthM])).toEqual([
      ['Gull Steps', 14],
      ['Far Bank', 26],
    ]);
    expect(answers.party).toHaveLength(2);
    const result = startingSheet({ ...answers, flight: firstFlight(form) });
    expect(result.ok && result.value.trip.dives.length).toBeGreaterThan(10);
  });

  it('gives every new diver the usual gear and limits', () => {
    const usual = { ...form.usual, maxDepthM: 20, surfaceRateLpm: 14 };
    const { party } = answersOf({ ...form, names: ['Guide', 'Guest 1'], usual }, open, METRIC)!;
    expect(party.map(({ name, maxDepthM, surfaceRateLpm }) => [name, maxDepthM, surfaceRateLpm])).toEqual([
      ['Guide', 20, 14],
      ['Guest 1', 20, 14],
    ]);
    expect(new Set(party.map(({ id }) => id)).size).toBe(2);
  });

  it('takes over sites beside the list, each once', () => {
    const name = open.sites[0]!.name;
    const both = {
      ...form,
      list: listOf(`Gull Steps, 14\n${name}, 3`),
      takes: { ...form.takes, sites: true },
    };
    const { sites } = answersOf(both, open, METRIC)!;
    expect(sites.map((site) => site.name)).toEqual([...open.sites.map((site) => site.name), 'Gull Steps']);
    expect(new Set(sites.map(({ id }) => id)).size).toBe(sites.length);
  });

  it('takes over divers without their past, and mixes without their analysis', () => {
    const past = { ...open.party[0]!, arrivedAt: '2027-03-01T08:00', before: [] };
    const analysed = { ...open.mixes[0]!, analysedO2: 0.208 };
    const trip = {
      ...open,
      party: [past, ...open.party.slice(1)],
      mixes: [analysed, ...open.mixes.slice(1)],
    };
    const { party, mixes } = answersOf(
      { ...form, takes: { sites: false, party: true, mixes: true } },
      trip,
      METRIC,
    )!;
    expect(party).toEqual(open.party);
    expect(mixes).toEqual(open.mixes);
  });

  it('are none while a site of the list has no depth', () => {
    const gpx =
      '<gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1"><wpt lat="1" lon="2"><name>Far Bank</name></wpt></gpx>';
    expect(answersOf({ ...form, list: listOf(gpx) }, open, METRIC)).toBe(null);
    expect(
      answersOf({ ...form, list: { ...listOf(gpx), depthsM: { 0: 20 } } }, open, METRIC)?.sites,
    ).toHaveLength(1);
  });
});
