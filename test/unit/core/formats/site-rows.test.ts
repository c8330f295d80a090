import { describe, expect, it } from 'vitest';
import { readSiteRows, writeSiteRows } from '../../../../core/formats/site-rows';

function only(text: string, unit?: 'm' | 'ft') {
  const { sites, troubles } = readSiteRows(text, unit);
  expect(troubles).toEqual([]);
  expect(sites).toHaveLength(1);
  return sites[0]!;
}

function refusal(text: string) {
  const { sites, troubles } = readSiteRows(text);
  expect(sites).toEqual([]);
  expect(troubles).toHaveLength(1);
  return troubles[0]!;
}

describe('readSiteRows', () => {
  it('reads name, depth and notes by tabs, semicolons and commas', () => {
    const expected = { name: 'Kettle Rock', depthM: 18, notes: 'current', position: null };
    expect(only('Kettle Rock\t18\tcurrent')).toEqual(expected);
    expect(only('Kettle Rock;18;current')).toEqual(expected);
    expect(only('Kettle Rock,18,current')).toEqual(expected);
    expect(only(' Kettle Rock , 18 m , current \r\n\r\n')).toEqual(expected);
  });

  it('reads a position between depth and notes', () => {
    expect(only('Kettle Rock\t18\t-7,25\t41.5\tcurrent')).toEqual({
      name: 'Kettle Rock',
      depthM: 18,
      notes: 'current',
      position: { lat: -7.25, lon: 41.5 },
    });
    expect(only("Kettle Rock;18;12° 20.7' S;41 30 E").position).toEqual({ lat: -12.345, lon: 41.5 });
  });

  it('reads decimal commas where tabs or semicolons separate', () => {
    expect(only('Kettle Rock\t18,5').depthM).toBe(18.5);
    expect(only('Kettle Rock;18,5').depthM).toBe(18.5);
    expect(only('Kettle Rock,"18,5"').depthM).toBe(18.5);
  });

  it('refuses a comma that may be decimal or may end a cell', () => {
    expect(refusal('Kettle Rock,18,5').what).toContain('may be a decimal comma');
    expect(refusal('name,depth,notes\nKettle Rock,18,5').what).toContain('may be a decimal comma');
    expect(refusal('Kettle Rock,18,5,41').mend).toContain('semicolons');
    expect(only('Kettle Rock,18, 5 buoys').notes).toBe('5 buoys');
    expect(only('name,depth,lat,lon\nKettle Rock,18,12,-41').position).toEqual({ lat: 12, lon: -41 });
  });

  it('follows headings in any order and keeps columns it has no field for', () => {
    const text = 'Lat;Lon;Max. depth (ft);Site;Skipper;Notes\n1;2;60;Kettle Rock;North team;sand';
    expect(only(text)).toEqual({
      name: 'Kettle Rock',
      depthM: 60 * 0.3048,
      notes: 'Skipper: North team\nsand',
      position: { lat: 1, lon: 2 },
    });
  });

  it('counts depths in feet where asked, unless the cell or the heading says otherwise', () => {
    expect(only('Kettle Rock\t60', 'ft').depthM).toBeCloseTo(18.288, 12);
    expect(only('Kettle Rock\t18 m', 'ft').depthM).toBe(18);
    expect(only('name\tdepth (m)\nKettle Rock\t18', 'ft').depthM).toBe(18);
    expect(only("Kettle Rock\t60'").depthM).toBeCloseTo(18.288, 12);
    expect(only('Kettle Rock\t60 ft').depthM).toBeCloseTo(18.288, 12);
  });

  it('reads a typed line where the unit tells the depth from the name', () => {
    expect(only('Kettle Rock 2  18 m')).toMatchObject({ name: 'Kettle Rock 2', depthM: 18 });
    expect(refusal('Kettle Rock 2').what).toBe('The row has no depth.');
  });

  it('takes quotation marks of a spreadsheet as text where they enclose no whole cell', () => {
    expect(only('"Old" pier\t12').name).toBe('"Old" pier');
    expect(only('"Two\nlines"\t12').name).toBe('Two\nlines');
    expect(refusal('"Old" pier,12').where).toBe('line 1');
    expect(refusal('a,12\n"Kettle,13').where).toBe('line 2');
  });

  it('reads what it can and names every line it cannot', () => {
    const text = 'name\tdepth\nKettle Rock\t18\nDeep Hole\t180\n\nThe Shelf\tdeep\n\t12\nGarden\t9';
    const { sites, troubles } = readSiteRows(text);
    expect(sites.map((site) => site.name)).toEqual(['Kettle Rock', 'Garden']);
    expect(troubles.map(({ where, what }) => [where, what])).toEqual([
      ['line 3', 'Depth of the site is 180 m; it can be 1 to 100 m.'],
      ['line 5', '"deep" is no depth.'],
      ['line 6', expect.stringContaining('Name')],
    ]);
  });

  it('refuses what is no number as a whole, and half a position', () => {
    expect(refusal('Kettle Rock\t18..5').what).toBe('"18..5" is no depth.');
    expect(refusal('Kettle Rock\t-18').what).toContain('-18 m');
    expect(refusal('Kettle Rock\t1,200').what).toContain('thousand');
    expect(refusal('Kettle Rock\t18\t95\t41\tnotes').what).toContain('Latitude is 95');
    expect(refusal('Kettle Rock\t18\t12\t\tnotes').what).toBe('"" is no longitude.');
    expect(refusal('Kettle Rock\t18\t\t41\tnotes').what).toBe('"" is no latitude.');
    expect(refusal('Kettle Rock\t18\t1\t2\tnotes\tmore').what).toContain('6 cells');
  });

  it('says when there is nothing, or too much', () => {
    expect(refusal(' \n\n').kind).toBe('no-sites');
    expect(readSiteRows('name\tdepth').troubles[0]!.kind).toBe('no-sites');
    expect(refusal('Reef\t18\n'.repeat(501)).kind).toBe('too-many');
    expect(refusal('x'.repeat(2_000_001)).kind).toBe('too-large');
    expect(readSiteRows('Reef\t18\n'.repeat(500)).sites).toHaveLength(500);
  });

  it('quotes no more of a text than a message can hold', () => {
    for (const text of [
      `Reef\t${'1,'.repeat(500)}`,
      `Reef,18,5${'0'.repeat(500)}`,
      `Reef\t18\t${'x'.repeat(500)}\t1\t`,
    ]) {
      expect(refusal(text).what.length).toBeLessThan(110);
    }
  });

  it('turns no name into a command of a spreadsheet, and reads it back as it was', () => {
    const text = writeSiteRows([{ id: 's1', name: '=1+1', depthM: 18, notes: "'@x", position: null }]);
    expect(text).toContain("'=1+1");
    expect(only(text)).toMatchObject({ name: '=1+1', notes: "'@x" });
  });
});
