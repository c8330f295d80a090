import { describe, expect, it } from 'vitest';
import { csvText, plainText, readDelimited } from '../../../../core/formats/delimited';
import { readSiteRows, writeSiteRows } from '../../../../core/formats/site-rows';
import { wordsIn } from '../../../../renderer/figures/reader';

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
    expect(only('Wall\t12\t"Two\nlines"').notes).toBe('Two\nlines');
    expect(refusal('"Two\nlines"\t12').what).toBe('The name goes over several lines.');
    expect(refusal('"Old" pier,12').where).toBe('line 1');
    const { sites, troubles } = readSiteRows('a,12\n"Kettle,13\nb,14');
    expect(sites.map(({ name }) => name)).toEqual(['a', 'b']);
    expect(troubles).toMatchObject([{ where: 'line 2', what: expect.stringContaining('never closed') }]);
    // Rows that two loose marks hold together are no name.
    expect(refusal('"Kettle,13\nReef,12\nWall",14').mend).toContain('quotation mark that is left open');
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

  it('lets each row choose its separator', () => {
    const { sites, troubles } = readSiteRows(
      'Kettle Rock\t18,5\tsand\nHouse Reef, 14\nWall; 21,5; current\n\nThe Shelf 12 m\n"Pier; inner", 9',
    );
    expect(troubles).toEqual([]);
    expect(sites.map(({ name, depthM, notes }) => [name, depthM, notes])).toEqual([
      ['Kettle Rock', 18.5, 'sand'],
      ['House Reef', 14, ''],
      ['Wall', 21.5, 'current'],
      ['The Shelf', 12, ''],
      ['Pier; inner', 9, ''],
    ]);
  });

  it('lets a row under headings be separated otherwise, in their order where it is the usual one', () => {
    const usual = readSiteRows(
      'name\tdepth (ft)\tnotes\nKettle Rock\t60\tsand\nHouse Reef, 45\nWall, 30 m, eels',
    );
    expect(usual.troubles).toEqual([]);
    expect(usual.sites.map(({ name, depthM, notes }) => [name, Number(depthM!.toFixed(3)), notes])).toEqual([
      ['Kettle Rock', 18.288, 'sand'],
      ['House Reef', 13.716, ''],
      ['Wall', 30, 'eels'],
    ]);
    const other = readSiteRows('lat;lon;depth;name\n1;2;18;Kettle Rock\nHouse Reef, 14');
    expect(other.troubles).toEqual([]);
    expect(other.sites.map(({ name, depthM }) => [name, depthM])).toEqual([
      ['Kettle Rock', 18],
      ['House Reef', 14],
    ]);
  });

  it.each([
    ['a name that another sign might end', 'Reef, 14; 20'],
    ['a semicolon left within the name', 'Reef; 12, 14'],
    ['a tab left within the name', 'Reef\tinner, 14'],
  ])('refuses %s, with the row and how to mend it', (_, row) => {
    const { sites, troubles } = readSiteRows(`Kettle Rock, 18\n${row}`);
    expect(sites.map(({ name }) => name)).toEqual(['Kettle Rock']);
    expect(troubles).toMatchObject([{ kind: 'row', where: 'line 2' }]);
    expect(troubles[0]!.mend).toMatch(/^(Separate all cells by the same sign|Give the depth)/);
  });

  it('reads signs that belong to the notes or the name as text', () => {
    expect(only('Reef, 14, sand; some current')).toMatchObject({ name: 'Reef', notes: 'sand; some current' });
    expect(only('Reef, inner\t14')).toMatchObject({ name: 'Reef, inner', depthM: 14 });
    expect(only('Reef 2, north; 14,5')).toMatchObject({ name: 'Reef 2, north', depthM: 14.5 });
  });

  it('reads a position in one cell, under its heading or by its letters', () => {
    const there = { lat: -12.345, lon: 45.6 };
    expect(only("Reef; 14; 12° 20.7' S 45° 36' E; sand")).toMatchObject({ position: there, notes: 'sand' });
    expect(only("Reef, 14, 12° 20.7' S 45° 36' E").position).toEqual(there);
    expect(only('depth\tposition\tname\n14\t-12,345 45,6\tReef').position).toEqual(there);
    expect(refusal('name;depth;position\nReef;14;by the pier').what).toBe('"by the pier" is no position.');
    expect(refusal('name;depth;position\nReef;14;7 24 12 19').what).toContain('two positions');
    expect(refusal("Reef; 14; 95° N 45° 36' E").what).toContain('Latitude is 95');
    // Two figures without letters may be anything.
    expect(only('Reef; 14; 3 to 5')).toMatchObject({ position: null, notes: '3 to 5' });
  });

  it('reads units in cells, and a dash between name and depth', () => {
    for (const cell of ['60 ft', '60ft', "60'", '60′', '60 feet']) {
      expect(only(`Reef; ${cell}`).depthM).toBeCloseTo(18.288, 12);
    }
    expect(only('Reef – 18 m')).toMatchObject({ name: 'Reef', depthM: 18 });
    expect(only('Reef: 60 feet')).toMatchObject({ name: 'Reef' });
    expect(refusal('Reef; 18-25 m').what).toBe('"18-25 m" is no depth.');
  });

  it('words a depth out of range for whoever reads it', () => {
    const { troubles } = readSiteRows('Deep Hole\t500', 'ft', wordsIn({ units: 'imperial', clock: '24h' }));
    expect(troubles[0]!.what).toBe('Depth of the site is 500 ft; it can be 4 to 328 ft.');
    expect(readSiteRows('Reef\tdeep', 'ft').troubles[0]!.mend).toContain('in feet, such as 60');
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

  it.each([',,', ';;;', '\t\t', ' , ,', '"",""', ',"  ";'])(
    'passes over the blank row %j, headings or not',
    (blank) => {
      for (const heading of ['', 'name,depth\n', `${blank}\nname,depth\n`]) {
        const { sites, troubles } = readSiteRows(`${heading}A,20\n${blank}\nB,18\n${blank}`);
        expect(sites.map(({ name, depthM }) => [name, depthM])).toEqual([
          ['A', 20],
          ['B', 18],
        ]);
        expect(troubles).toEqual([]);
      }
    },
  );

  it('says of blank rows alone that there is no site', () => {
    expect(readSiteRows(',,\n;;').troubles.map(({ kind }) => kind)).toEqual(['no-sites']);
    expect(readSiteRows('",,').troubles.map(({ kind }) => kind)).toEqual(['row']);
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

  it('writes the water of a site where it is its own, and reads it back', () => {
    const tarn = { id: 's1', name: 'Tarn', depthM: 18, notes: '', position: null };
    const water = { density: 'fresh' as const, altitudeM: 640.5 };
    const text = writeSiteRows([
      { ...tarn, water },
      { ...tarn, id: 's2', name: 'Cove' },
    ]);
    const { sites } = readSiteRows(text);
    expect(sites.map((site) => site.water)).toEqual([water, undefined]);
    expect(writeSiteRows([tarn])).not.toContain('water');
    const headed = (altitude: string, density: string) =>
      `name;depth;water altitude (ft);water density\nTarn;18;${altitude};${density}`;
    expect(only(headed('2100', '1030')).water).toEqual({ density: 1030, altitudeM: 2100 * 0.3048 });
    expect(refusal(headed('high', '')).what).toBe('"high" is no altitude.');
    expect(refusal(headed('', 'cold')).what).toBe('"cold" is no water.');
    expect(refusal(headed('90000', '')).what).toContain('Altitude');
    // A column of that name alone says what divers say of water, and goes into the notes.
    expect(only('name;depth;water\nTarn;18;cold').notes).toBe('water: cold');
  });

  it('turns no name into a command of a spreadsheet, and reads it back as it was', () => {
    const text = writeSiteRows([{ id: 's1', name: '=1+1', depthM: 18, notes: "'@x", position: null }]);
    expect(text).toContain("'=1+1");
    expect(only(text)).toMatchObject({ name: '=1+1', notes: "'@x" });
  });

  it.each(['\n=1+1', '\t=1+1', ' \u00a0=1+1', '\u0000=1+1', '\u200b@x', '\u001f-1', '＝1+1', '\r'])(
    'guards %j, which some spreadsheets run as well, and reads it back',
    (cell) => {
      const text = csvText([[cell]]);
      expect(text.replaceAll('"', '')).toContain(`'${cell}`);
      expect(plainText(readDelimited(text, ',').rows[0]!.cells[0]!)).toBe(cell);
    },
  );
});
