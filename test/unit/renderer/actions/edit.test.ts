import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import type { Trip } from '../../../../core/document/types';
import { openTrip, stockedTrip } from '../../../../core/mixes/stocked-trip';
import * as dives from '../../../../renderer/actions/dives';
import * as rest from '../../../../renderer/actions/dive-rest';
import * as heights from '../../../../renderer/actions/heights';
import * as mixes from '../../../../renderer/actions/mixes';
import * as party from '../../../../renderer/actions/party';
import * as sites from '../../../../renderer/actions/sites';
import * as whole from '../../../../renderer/actions/trip';
import { desk, freshDesk } from '../../../../renderer/store/store';

const LIST = [28, 32];

/** The demo trip with something said in every place that may be left out, and stocked with a list. */
function fullTrip(): Trip {
  return stockedTrip(openTrip(withAll(demoTrip()), { fromDate: null }), LIST);
}

function withAll(trip: Trip): Trip {
  const [dive, ...others] = trip.dives;
  const [site, ...otherSites] = trip.sites;
  const [mix, ...otherMixes] = trip.mixes;
  const [diver, ...otherDivers] = trip.party;
  const record = { depthM: 17, bottomMin: 39 };
  const earlier = { id: 'before-1', startsAt: '2027-03-10T10:00', depthM: 12, bottomMin: 40 };
  return {
    ...trip,
    emergency: { radio: 'Channel 16' },
    events: [{ id: 'e', title: 'A pass', from: '2027-03-20T10:00', to: '2027-03-20T11:00', altitudeM: 900 }],
    sites: [{ ...site!, position: { lat: 1, lon: 2 }, water: { altitudeM: 20 } }, ...otherSites],
    mixes: [{ ...mix!, analysedO2: mix!.o2 }, ...otherMixes],
    party: [
      { ...diver!, arrivedAt: '2027-03-01T10:00', before: [{ ...earlier, mix: 'auto', o2: 0.21 }] },
      ...otherDivers,
    ],
    dives: [
      { ...dive!, safetyStop: { depthM: 5, min: 3 }, turnShare: 0.3, asDived: [record] } as Trip['dives'][0],
      ...others,
    ],
  };
}

const now = (): Trip => desk.getState().trip;
const dive = () => now().dives[0]!;
const bare = () => now().dives.find((each) => !each.divers && !each.legs && each !== dive())!;
const split = () => now().dives.find((each) => each.divers)!;
const levelled = () => now().dives.find((each) => each.legs)!;
const site = () => now().sites[0]!;
const mix = () => now().mixes[0]!;
const diver = () => now().party[0]!;

/** Every edit that gives something a value, with the value it has. */
const SAME: Readonly<Record<string, readonly (() => unknown)[]>> = {
  setTitle: [() => whole.setTitle(now().title)],
  setTripPlace: [() => whole.setTripPlace(now().place)],
  setNotes: [() => whole.setNotes(now().notes)],
  setWater: [() => whole.setWater({ ...now().water }), () => whole.setWater({})],
  setRates: [() => whole.setRates({ ...now().settings })],
  setEventTitle: [() => heights.setEventTitle('e', now().events![0]!.title)],
  setEventFrom: [() => heights.setEventFrom('e', now().events![0]!.from)],
  setEventTo: [() => heights.setEventTo('e', now().events![0]!.to)],
  setEventAltitude: [() => heights.setEventAltitude('e', now().events![0]!.altitudeM)],
  setSiteWater: [
    () => sites.setSiteWater(site().id, site().water!),
    () => sites.setSiteWater(now().sites[1]!.id, { density: null, altitudeM: null }),
  ],
  setEmergency: [() => whole.setEmergency('radio', now().emergency!.radio!)],
  setFlight: [() => whole.setFlight(now().flight!.at)],
  setDepth: [
    () => dives.setDepth(dive().id, dive().depthM),
    () => dives.setDepth(levelled().id, levelled().depthM),
  ],
  setBottomMin: [
    () => dives.setBottomMin(dive().id, dive().bottomMin),
    () => dives.setBottomMin(levelled().id, levelled().bottomMin),
  ],
  setStart: [() => dives.setStart(dive().id, dive().startsAt)],
  setMix: [() => dives.setMix(dive().id, dive().mix)],
  goToSite: [() => dives.goToSite([dive().id], dive().siteId)],
  setDiveParty: [
    () => rest.setDiveParty(bare().id, null),
    () => rest.setDiveParty(split().id, [...split().divers!]),
  ],
  setSafetyStop: [
    () => rest.setSafetyStop(dive().id, { ...dive().safetyStop! }),
    () => rest.setSafetyStop(bare().id, undefined),
  ],
  setTurnShare: [
    () => rest.setTurnShare(dive().id, dive().turnShare),
    () => rest.setTurnShare(bare().id, undefined),
  ],
  setLevels: [
    () => rest.setLevels(levelled().id, [...levelled().legs!]),
    () => rest.setLevels(bare().id, [{ depthM: bare().depthM, min: bare().bottomMin }]),
  ],
  setAsDived: [
    () => rest.setAsDived(dive().id, null, { ...dive().asDived![0]! }),
    () => rest.setAsDived(bare().id, null, null),
  ],
  setMixShare: [() => mixes.setMixShare(mix().id, mix().o2)],
  setMixAnalysis: [() => mixes.setMixAnalysis(mix().id, mix().analysedO2!)],
  setMixPrice: [() => mixes.setMixPrice(mix().id, mix().costPerFill)],
  setCurrency: [() => mixes.setCurrency(desk.getState().trip.currency ?? '')],
  putOnBoard: [() => mixes.putOnBoard(LIST, null)],
  setDiverName: [() => party.setDiverName(diver().id, diver().name)],
  setSurfaceRate: [() => party.setSurfaceRate(diver().id, diver().surfaceRateLpm)],
  setCylinder: [() => party.setCylinder(diver().id, { ...diver().cylinder })],
  setDepthLimit: [() => party.setDepthLimit(diver().id, diver().maxDepthM)],
  setOxygenCeiling: [() => party.setOxygenCeiling(diver().id, diver().maxO2)],
  setPo2Limits: [() => party.setPo2Limits(diver().id, { ...diver().po2 })],
  setGradient: [() => party.setGradient(diver().id, { ...diver().gradient })],
  setArrival: [
    () => party.setArrival(diver().id, diver().arrivedAt!),
    () => party.setArrival(now().party[1]!.id, null),
  ],
  setOnDives: [
    () => rest.setOnDives(diver().id, [bare().id], true),
    () => rest.setOnDives(split().divers![0]!, [split().id], true),
  ],
  changeEarlierDive: [
    () => party.changeEarlierDive(diver().id, 'before-1', { depthM: 12 }),
    () => party.changeEarlierDive(diver().id, 'before-1', { gas: { o2: 0.21 } }),
  ],
  setSiteName: [() => sites.setSiteName(site().id, site().name)],
  setSiteDepth: [() => sites.setSiteDepth(site().id, site().depthM)],
  setSiteNotes: [() => sites.setSiteNotes(site().id, site().notes)],
  setSiteLevels: [() => sites.setSiteLevels(site().id, [...(site().levels ?? [])])],
  setSiteText: [
    () => sites.setSiteText(site().id, 'planB', site().planB ?? ''),
    () => sites.setSiteText(site().id, 'briefing', site().briefing ?? ''),
  ],
  setSiteNotFor: [() => sites.setSiteNotFor(site().id, { ...site().notFor })],
  setSitePosition: [
    () => sites.setSitePosition(site().id, { ...site().position! }),
    () => sites.setSitePosition(now().sites[1]!.id, null),
  ],
};

beforeEach(() => desk.setState(freshDesk(fullTrip()), true));

describe('an edit that gives a value again', () => {
  it.each(Object.entries(SAME))('%s leaves no step and the trip the same object', (_, acts) => {
    const before = now();
    for (const act of acts) act();
    expect(desk.getState().history.past.map(({ label }) => label)).toEqual([]);
    expect(now()).toBe(before);
  });

  it('is tried for every edit that sets, changes or puts', () => {
    const edits = [dives, rest, heights, mixes, party, sites, whole].flatMap((each) => Object.keys(each));
    expect(edits.filter((name) => /^(set|change|put|go)/.test(name)).toSorted()).toEqual(
      Object.keys(SAME).toSorted(),
    );
  });
});

describe('an edit of something that is not there', () => {
  it.each([
    ['a dive', () => dives.setDepth('nobody', 12)],
    ['no dives', () => dives.deleteDives([])],
    ['a copy of none', () => dives.duplicateDives([])],
    ['a diver', () => party.setDepthLimit('nobody', 12)],
    ['a site', () => sites.setSiteDepth('nobody', 12)],
    ['no sites', () => sites.addSites([])],
  ])('leaves no step: %s', (_, act) => {
    const before = now();
    act();
    expect(desk.getState().history.past).toEqual([]);
    expect(now()).toBe(before);
  });
});
