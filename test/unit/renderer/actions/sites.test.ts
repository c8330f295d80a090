import { beforeEach, describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../core/document/demo-trip';
import { undoStep } from '../../../../renderer/actions/history';
import {
  addSites,
  removeSite,
  setSiteDepth,
  setSiteName,
  setSitePosition,
} from '../../../../renderer/actions/sites';
import { desk, freshDesk } from '../../../../renderer/store/store';

const sites = () => desk.getState().trip.sites;
const labels = () => desk.getState().history.past.map(({ label }) => label);
const draft = { name: 'Gull Steps', depthM: 14, notes: '', position: null };

beforeEach(() => desk.setState(freshDesk(demoTrip()), true));

describe('edits of a site', () => {
  it('replace that site and nothing else, under a name a person reads', () => {
    const before = sites();
    const { id, name, depthM } = before[1]!;
    expect(setSiteDepth(id, depthM + 1).ok).toBe(true);
    expect(
      sites()
        .filter((site, i) => site !== before[i])
        .map((site) => site.id),
    ).toEqual([id]);
    expect(labels()).toEqual([`Depth of ${name}`]);
  });

  it('record nothing where nothing is new', () => {
    const [site] = sites();
    setSiteDepth(site!.id, site!.depthM);
    setSitePosition(site!.id, { ...site!.position! });
    expect(labels()).toEqual([]);
  });

  it('are refused with what, where and how to mend it', () => {
    const before = desk.getState().trip;
    const depth = setSiteDepth(before.sites[0]!.id, 400);
    const name = setSiteName(before.sites[0]!.id, '');
    for (const [result, key] of [
      [depth, 'depthM'],
      [name, 'name'],
    ] as const) {
      expect(result.ok).toBe(false);
      if (!result.ok) expect(result.troubles[0].where).toContain(`sites[0].${key}`);
    }
    expect(desk.getState().trip).toBe(before);
  });
});

describe('addSites', () => {
  it('puts all of them behind the others in one step, each with an id of its own', () => {
    const count = sites().length;
    expect(addSites([draft, { ...draft, name: 'Far Bank' }]).ok).toBe(true);
    expect(
      sites()
        .slice(count)
        .map(({ name }) => name),
    ).toEqual(['Gull Steps', 'Far Bank']);
    expect(new Set(sites().map(({ id }) => id)).size).toBe(count + 2);
    expect(labels()).toEqual(['two new sites']);
    undoStep();
    expect(sites()).toHaveLength(count);
  });
});

describe('a name that another site has', () => {
  const refusal = 'is the name of another site. Give a name by which the two are told apart.';
  const told = (result: ReturnType<typeof addSites>): string =>
    result.ok ? '' : `${result.troubles[0].what} ${result.troubles[0].mend}`;

  it('is refused, capitals and spaces aside', () => {
    const [first, second] = sites();
    const twin = ` ${first!.name.toUpperCase()} `;
    expect(told(addSites([{ ...draft, name: twin }]))).toBe(`${first!.name} ${refusal}`);
    expect(told(setSiteName(second!.id, twin))).toBe(`${first!.name} ${refusal}`);
    expect(told(addSites([draft, { ...draft, name: 'gull steps' }]))).toBe(`gull steps ${refusal}`);
    expect(labels()).toEqual([]);
  });

  it('may be written otherwise by its own site, and stands where a file has it', () => {
    const [first, second] = sites();
    expect(told(setSiteName(first!.id, first!.name.toUpperCase()))).toBe('');
    desk.setState(({ trip }) => ({
      trip: { ...trip, sites: trip.sites.map((site) => ({ ...site, name: 'Nova' })) },
    }));
    expect(told(setSiteName(second!.id, 'Nova'))).toBe('');
    expect(told(setSiteDepth(second!.id, 9))).toBe('');
    expect(told(setSiteName(second!.id, 'Nova, north'))).toBe('');
  });
});

describe('removeSite', () => {
  it('is refused while a dive is planned there, and says which', () => {
    const { trip } = desk.getState();
    const { siteId } = trip.dives[0]!;
    const numbers = trip.dives.flatMap((dive, at) => (dive.siteId === siteId ? [String(at + 1)] : []));
    expect(numbers.length).toBeGreaterThan(1);
    const result = removeSite(siteId);
    expect(result.ok).toBe(false);
    if (!result.ok) {
      expect(result.troubles[0].what).toContain(
        `dives ${numbers.slice(0, -1).join(', ')} and ${numbers.at(-1)}`,
      );
      expect(result.troubles[0].where).toContain(siteId);
    }
    expect(desk.getState().trip).toBe(trip);
  });

  it('is refused while an earlier dive of a diver was there', () => {
    addSites([draft]);
    const { id } = sites().at(-1)!;
    const { trip } = desk.getState();
    const [first, ...rest] = trip.party;
    const earlier = {
      id: 'b1',
      siteId: id,
      startsAt: '2020-01-01T10:00',
      depthM: 10,
      bottomMin: 20,
      mix: 'auto',
      o2: 0.21,
    } as const;
    desk.setState({ trip: { ...trip, party: [{ ...first!, before: [earlier] }, ...rest] } });
    const result = removeSite(id);
    expect(result.ok ? '' : result.troubles[0].what).toContain(`earlier dives of ${first!.name}`);
  });

  it('takes away a site that nobody dives', () => {
    addSites([draft]);
    expect(removeSite(sites().at(-1)!.id).ok).toBe(true);
    expect(sites().map(({ name }) => name)).not.toContain('Gull Steps');
  });
});
