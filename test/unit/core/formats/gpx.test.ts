import { describe, expect, it } from 'vitest';
import { readGpx, writeGpx } from '../../../../core/formats/gpx';
import type { Site } from '../../../../core/document/types';

function gpx(body: string): string {
  return `<?xml version="1.0"?>\n<gpx version="1.1" creator="x" xmlns="http://www.topografix.com/GPX/1/1">${body}</gpx>`;
}

const KETTLE: Site = {
  id: 's1',
  name: 'Kettle & <Rock>',
  depthM: 18.5,
  notes: 'Line one\nLine "two"',
  position: { lat: -7.25, lon: 41.000001 },
};

function depthWith(elevation: string): number | null {
  return readGpx(gpx(`<wpt lat="1" lon="2">${elevation}<name>A</name></wpt>`)).sites[0]!.depthM;
}

describe('readGpx', () => {
  it('reads name, notes, position and the depth of an extension', () => {
    const body =
      '<wpt lat="-7.25" lon="41.5"><ele>3</ele><name>Kettle Rock</name><cmt>sand</cmt><desc>current</desc>' +
      '<extensions><d:Depth xmlns:d="urn:x">18.5</d:Depth></extensions></wpt>';
    expect(readGpx(gpx(body))).toEqual({
      sites: [
        { name: 'Kettle Rock', depthM: 18.5, notes: 'current\nsand', position: { lat: -7.25, lon: 41.5 } },
      ],
      troubles: [],
    });
  });

  it('takes an elevation below the sea as the depth, and knows none above it', () => {
    expect(depthWith('<ele>-21</ele>')).toBe(21);
    expect(depthWith('<ele>0</ele>')).toBeNull();
    expect(depthWith('<ele>350</ele>')).toBeNull();
    expect(depthWith('')).toBeNull();
  });

  it('names each waypoint that cannot be a site', () => {
    const body =
      '<wpt lat="1" lon="2"><name>Good</name></wpt><wpt lat="91" lon="2"><name>Far</name></wpt>' +
      '<wpt lat="1" lon="2"/><wpt lon="2"><name>Lost</name></wpt>' +
      '<wpt lat="1" lon="2"><name>Odd</name><extensions><depth>deep</depth></extensions></wpt>';
    const { sites, troubles } = readGpx(gpx(body));
    expect(sites.map((site) => site.name)).toEqual(['Good']);
    expect(troubles.map((trouble) => trouble.where)).toEqual([
      'waypoint 2 ("Far")',
      'waypoint 3',
      'waypoint 4 ("Lost")',
      'waypoint 5 ("Odd")',
    ]);
    for (const trouble of troubles) expect(trouble.mend).not.toBe('');
  });

  it('says what is no GPX, and where the text breaks', () => {
    expect(readGpx('<kml/>').troubles[0]!.what).toContain('begins with <kml>');
    expect(readGpx(gpx('')).troubles[0]!.kind).toBe('no-sites');
    expect(readGpx('<gpx>\n<wpt>\n</gpx>').troubles[0]!).toMatchObject({
      kind: 'not-readable',
      where: 'line 3',
    });
    expect(readGpx(gpx('<wpt lat="1" lon="2"><name>A</name></wpt>'.repeat(501))).troubles[0]!.kind).toBe(
      'too-many',
    );
  });

  it('refuses a document type, whatever it would define', () => {
    const bomb = '<!DOCTYPE gpx [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;">]><gpx>&b;</gpx>';
    expect(readGpx(bomb).troubles[0]!.what).toContain('Document types');
  });
});

describe('writeGpx', () => {
  it('writes what readGpx reads back', () => {
    const { text, withoutPosition } = writeGpx([KETTLE], 'A & B');
    expect(withoutPosition).toEqual([]);
    const { name, depthM, notes, position } = KETTLE;
    expect(readGpx(text)).toEqual({ sites: [{ name, depthM, notes, position }], troubles: [] });
  });

  it('hands back the sites that have no position', () => {
    const nowhere: Site = { id: 's2', name: 'B', depthM: 9, notes: '' };
    const { text, withoutPosition } = writeGpx([nowhere, KETTLE, { ...nowhere, position: null }], '');
    expect(withoutPosition.map((site) => site.name)).toEqual(['B', 'B']);
    expect(readGpx(text).sites).toHaveLength(1);
  });

  it('writes no exponents, which the schema of GPX does not know', () => {
    const { text } = writeGpx([{ ...KETTLE, position: { lat: 1e-7, lon: 0 } }], '');
    expect(text).toContain('lat="0.000000100000"');
  });
});
