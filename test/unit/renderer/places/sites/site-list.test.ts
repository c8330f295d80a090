import { describe, expect, it } from 'vitest';
import { listOf, readSiteList } from '../../../../../renderer/places/sites/site-list';
import { M_PER_FOOT } from '../../../../../core/units';

const METRIC = { units: 'metric', clock: '24h' } as const;
const IMPERIAL = { units: 'imperial', clock: '24h' } as const;

const GPX =
  '<gpx version="1.1" creator="t" xmlns="http://www.topografix.com/GPX/1/1"><wpt lat="1" lon="2"><name>Far Bank</name></wpt></gpx>';

describe('readSiteList', () => {
  it('reads rows and tells each that it cannot', () => {
    const read = readSiteList(listOf('Gull Steps\t18\nNowhere\t'), METRIC, []);
    expect(read.drafts).toMatchObject([{ name: 'Gull Steps', depthM: 18 }]);
    expect(read.troubles).toHaveLength(1);
    expect(read.troubles[0]!.where).toBe('line 2');
  });

  it('counts a depth without a unit as the window does', () => {
    const read = readSiteList(listOf('Gull Steps, 60'), IMPERIAL, []);
    expect(read.drafts?.[0]?.depthM).toBeCloseTo(60 * M_PER_FOOT, 9);
  });

  it('leaves what is there already, until it is wanted by hand', () => {
    const text = 'Gull Steps, 18\nWall, 30\nwall , 31';
    const read = readSiteList(listOf(text), METRIC, ['WALL']);
    expect(read.drafts?.map(({ name }) => name)).toEqual(['Gull Steps']);
    expect(read.sites.map(({ isKnown }) => isKnown)).toEqual([false, true, true]);
    const wanted = readSiteList({ ...listOf(text), wanted: { 0: false, 2: true } }, METRIC, ['WALL']);
    expect(wanted.drafts?.map(({ depthM }) => depthM)).toEqual([31]);
  });

  it('takes a name that the list has twice once', () => {
    const read = readSiteList(listOf('Gull Steps, 18\nGULL STEPS, 19'), METRIC, []);
    expect(read.drafts).toMatchObject([{ name: 'Gull Steps', depthM: 18 }]);
  });

  it('asks for a depth that the list does not give', () => {
    const asked = readSiteList(listOf(GPX), METRIC, []);
    expect(asked.sites).toMatchObject([{ isAsked: true, depthM: null }]);
    expect(asked.drafts).toBe(null);
    const given = readSiteList({ ...listOf(GPX), depthsM: { 0: 22 } }, METRIC, []);
    expect(given.drafts).toMatchObject([{ name: 'Far Bank', depthM: 22, position: { lat: 1, lon: 2 } }]);
    const left = readSiteList({ ...listOf(GPX), wanted: { 0: false } }, METRIC, []);
    expect(left.drafts).toEqual([]);
  });

  it('takes no height for a depth: it asks, whatever is suggested', () => {
    const guessed = GPX.replace('<name>', '<ele>-21</ele><name>');
    const asked = readSiteList(listOf(guessed), METRIC, []);
    expect(asked.sites).toMatchObject([
      { isAsked: true, depthM: null, draft: { suggestion: { from: 'elevation', depthM: 21 } } },
    ]);
    expect(asked.drafts).toBe(null);
  });

  it('finds nothing to say of an empty list', () => {
    expect(readSiteList(listOf('  \n'), METRIC, [])).toEqual({ sites: [], troubles: [], drafts: [] });
  });

  it('reads a text once, however often it is asked and whatever is said of its rows', () => {
    const list = listOf('Gull Steps, 18\nWall, 30');
    const [first] = readSiteList(list, METRIC, []).sites;
    for (const again of [list, { ...list, wanted: { 1: false } }, { ...list, depthsM: { 0: 20 } }]) {
      expect(readSiteList(again, METRIC, ['Wall']).sites[0]!.draft).toBe(first!.draft);
    }
    expect(readSiteList(listOf('Gull Steps, 19\nWall, 30'), METRIC, []).sites[0]!.draft).not.toBe(
      first!.draft,
    );
    expect(readSiteList(list, IMPERIAL, []).sites[0]!.depthM).toBeLessThan(18);
  });
});
