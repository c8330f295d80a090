import { describe, expect, it } from 'vitest';
import {
  loggedValue,
  logProgress,
  logState,
  withAsPlanned,
  withLogged,
  withMissedBy,
  withRestAsPlanned,
} from '../../../../core/document/log';
import { checkTrip } from '../../../../core/document/check-trip';
import type { Dive } from '../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../builders/trip';

const party = ['a', 'b', 'c'];
const divers = party.map((id) => aDiver({ id, name: `Diver ${id}` }));
const plan = aDive({ id: 'd', depthM: 24, bottomMin: 30 });

function stands(dive: Dive): Dive {
  expect(checkTrip(aTrip([dive], { party: divers }))).toEqual([]);
  return dive;
}
const states = (dive: Dive) => party.map((id) => logState(stands(dive), id));

describe('withLogged', () => {
  it('gives everybody what is typed once, until someone has their own', () => {
    const late = withLogged(plan, null, 'startsAt', '2027-03-06T08:08', party);
    const own = withLogged(late, 'b', 'startsAt', '2027-03-06T08:12', party);
    expect(states(own)).toEqual(['otherwise', 'otherwise', 'otherwise']);
    expect(party.map((id) => loggedValue(own, id, 'startsAt').value?.slice(11))).toEqual([
      '08:08',
      '08:12',
      '08:08',
    ]);
    expect(own.asDived).toEqual([
      { startsAt: '2027-03-06T08:08' },
      { by: 'b', startsAt: '2027-03-06T08:12' },
    ]);
  });

  it('says that the dive was made as planned where the plan is typed again, and keeps its levels', () => {
    const legs = [
      { depthM: 24, min: 10 },
      { depthM: 12, min: 20 },
    ];
    const again = withLogged({ ...plan, legs }, 'a', 'depthM', 24, party);
    expect(again.asDived).toEqual([{ by: 'a' }]);
    expect(states(again)).toEqual(['as-planned', 'planned', 'planned']);
  });

  it('leaves a dive ahead whose cylinder is analysed', () => {
    const analysed = withLogged(plan, 'a', 'o2', 0.31, party);
    expect(states(analysed)).toEqual(['planned', 'planned', 'planned']);
    expect(states(withLogged(analysed, 'a', 'endBar', 80, party))[0]).toBe('as-planned');
    expect(withAsPlanned(analysed, 'a', party).asDived).toEqual([
      { by: 'a', startsAt: plan.startsAt, o2: 0.31 },
    ]);
  });

  it('takes a figure back, and with the last one the entry', () => {
    const two = withLogged(withLogged(plan, 'a', 'endBar', 80, party), 'a', 'depthM', 25, party);
    const one = withLogged(two, 'a', 'depthM', undefined, party);
    expect(one.asDived).toEqual([{ by: 'a', endBar: 80 }]);
    expect(withLogged(one, 'a', 'endBar', undefined, party)).toEqual(plan);
    expect(withLogged(plan, 'a', 'endBar', undefined, party)).toBe(plan);
  });

  it('puts who was not on the dive on it, in the order of the party', () => {
    const some = { ...plan, divers: ['c'] };
    expect(states(some)).toEqual(['absent', 'absent', 'planned']);
    const more = withLogged(some, 'a', 'endBar', 90, party);
    expect(more.divers).toEqual(['a', 'c']);
    expect(withLogged(more, 'b', 'endBar', 90, party)).not.toHaveProperty('divers');
  });

  it('is what a dive was that nobody planned', () => {
    const added = { ...plan, added: true, asDived: [{}] };
    const deeper = withLogged(added, null, 'depthM', 11, party);
    expect(deeper).toMatchObject({ depthM: 11, asDived: [{}] });
    expect(states(deeper)).toEqual(['as-planned', 'as-planned', 'as-planned']);
    expect(withLogged(deeper, 'a', 'depthM', 12, party).asDived).toEqual([{}, { by: 'a', depthM: 12 }]);
  });
});

describe('withAsPlanned', () => {
  it('of a dive takes back what differed, and keeps what was read', () => {
    const differed = withLogged(
      withLogged(withMissedBy(plan, 'c', 'ear', party), 'a', 'depthM', 25, party),
      'a',
      'endBar',
      80,
      party,
    );
    expect(states(differed)).toEqual(['otherwise', 'planned', 'missed']);
    const back = withAsPlanned(differed, null, party);
    expect(states(back)).toEqual(['as-planned', 'as-planned', 'as-planned']);
    expect(back.asDived).toEqual([{}, { by: 'a', endBar: 80 }]);
  });

  it('of a diver is as everybody did', () => {
    const late = withLogged(plan, null, 'startsAt', '2027-03-06T08:08', party);
    const own = withLogged(late, 'b', 'depthM', 26, party);
    expect(withAsPlanned(own, 'b', party)).toEqual(late);
    expect(withAsPlanned(plan, 'b', party).asDived).toEqual([{ by: 'b' }]);
  });
});

describe('withRestAsPlanned', () => {
  it('leaves every entry there is, and makes the others', () => {
    const some = withMissedBy(withLogged(plan, 'a', 'depthM', 25, party), 'b', 'ear', party);
    const rest = withRestAsPlanned(some, party);
    expect(states(rest)).toEqual(['otherwise', 'missed', 'as-planned']);
    expect(withRestAsPlanned(rest, party)).toBe(rest);
  });

  it('makes a dive of an analysis for all', () => {
    const analysed = withLogged(plan, null, 'o2', 0.31, party);
    expect(states(withRestAsPlanned(analysed, party))).toEqual(['as-planned', 'as-planned', 'as-planned']);
  });

  it('leaves alone what all missed', () => {
    const missed = withMissedBy(plan, null, 'swell', party);
    expect(withRestAsPlanned(missed, party)).toBe(missed);
  });
});

describe('withMissedBy', () => {
  it('takes the figures away and keeps the analysis', () => {
    const logged = withLogged(withLogged(plan, 'a', 'o2', 0.31, party), 'a', 'endBar', 70, party);
    expect(withMissedBy(logged, 'a', ' ear ', party)).toEqual({
      ...plan,
      asDived: [{ by: 'a', o2: 0.31 }],
      notDived: [{ by: 'a', reason: 'ear' }],
    });
  });

  it('is taken back by typing a figure, and for the others it stands', () => {
    const missed = withMissedBy(plan, null, 'swell', party);
    expect(states(missed)).toEqual(['missed', 'missed', 'missed']);
    const one = withLogged(missed, 'b', 'endBar', 90, party);
    expect(states(one)).toEqual(['missed', 'as-planned', 'missed']);
    expect(one.notDived).toEqual([
      { reason: 'swell', by: 'a' },
      { reason: 'swell', by: 'c' },
    ]);
  });

  it('only takes a diver off a dive that was not planned, but for the last', () => {
    const added = { ...plan, added: true, asDived: [{}] };
    const two = withMissedBy(added, 'a', '', party);
    expect(two).toMatchObject({ divers: ['b', 'c'] });
    expect(two).not.toHaveProperty('notDived');
    const last = withMissedBy({ ...added, divers: ['a'] }, 'a', '', party);
    expect(last.notDived).toEqual([{ by: 'a' }]);
  });
});

describe('logProgress', () => {
  it('counts who is on a dive, and who made or missed it', () => {
    const dives = [
      withLogged(plan, 'a', 'endBar', 80, party),
      withMissedBy({ ...plan, divers: ['a', 'b'] }, 'b', '', party),
    ];
    expect(logProgress(dives, party)).toEqual({ done: 2, all: 5 });
  });
});
