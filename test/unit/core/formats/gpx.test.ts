import { describe, expect, it } from 'vitest';
import { readGpx, writeGpx } from '../../../../core/formats/gpx';
import type { SiteDraft } from '../../../../core/formats/site-draft';
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

function depthWith(inside: string): Pick<SiteDraft, 'depthM' | 'suggestion'> {
  const { depthM, suggestion } = readGpx(gpx(`<wpt lat="1" lon="2">${inside}<name>A</name></wpt>`)).sites[0]!;
  return { depthM, ...(suggestion && { suggestion }) };
}

/** As the published schema of the extension has it: among others, in its own namespace. */
function extension(depth: string, elsewhere = ''): string {
  const namespace = 'http://www.garmin.com/xmlschemas/GpxExtensions/v3';
  return (
    `<extensions>${elsewhere}<gpxx:WaypointExtension xmlns:gpxx="${namespace}">` +
    `<gpxx:Temperature>27</gpxx:Temperature><gpxx:Depth>${depth}</gpxx:Depth>` +
    '<gpxx:DisplayMode>SymbolAndName</gpxx:DisplayMode></gpxx:WaypointExtension></extensions>'
  );
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

  it('suggests an elevation below the sea, which is no depth yet, and knows none above it', () => {
    const suggested = (depthM: number) => ({ depthM: null, suggestion: { from: 'elevation', depthM } });
    expect(depthWith('<ele>-21</ele>')).toEqual(suggested(21));
    // A receiver writes digits that it cannot know.
    expect(depthWith('<ele>-21.4387</ele>')).toEqual(suggested(21.5));
    for (const none of ['<ele>0</ele>', '<ele>350</ele>', '<ele>-4000</ele>', '<ele>deep</ele>', '']) {
      expect(depthWith(none)).toEqual({ depthM: null });
    }
  });

  it('reads the depth that the files of receivers carry, whatever the elevation says', () => {
    expect(depthWith(extension('18.5'))).toEqual({ depthM: 18.5 });
    expect(depthWith(`<ele>-3</ele>${extension('18.5')}`)).toEqual({ depthM: 18.5 });
    expect(depthWith(extension('18.500', '<depth>18.5</depth>'))).toEqual({ depthM: 18.5 });
    const odd = readGpx(gpx(`<wpt lat="1" lon="2"><name>A</name>${extension('deep')}</wpt>`));
    expect(odd.sites).toEqual([]);
    expect(odd.troubles).toHaveLength(1);
  });

  it('takes none of several depths that disagree, and suggests the deepest', () => {
    expect(depthWith(extension('18.5', '<depth>21</depth>'))).toEqual({
      depthM: null,
      suggestion: { from: 'several', depthM: 21 },
    });
    const impossible = readGpx(
      gpx(`<wpt lat="1" lon="2"><name>A</name>${extension('18.5', '<depth>4000</depth>')}</wpt>`),
    );
    expect(impossible.troubles).toHaveLength(1);
  });

  it('names each waypoint that cannot be a site, and calls one without a name by its number', () => {
    const body =
      '<wpt lat="1" lon="2"><name>Good</name></wpt><wpt lat="91" lon="2"><name>Far</name></wpt>' +
      '<wpt lat="1" lon="2"/><wpt lon="2"><name>Lost</name></wpt>' +
      '<wpt lat="1" lon="2"><name>Odd</name><extensions><depth>deep</depth></extensions></wpt>';
    const { sites, troubles } = readGpx(gpx(body));
    expect(sites.map((site) => site.name)).toEqual(['Good', 'Waypoint 3']);
    expect(troubles.map((trouble) => trouble.where)).toEqual([
      'waypoint 2 ("Far")',
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
    expect(text).toContain('xmlns:gpxx="http://www.garmin.com/xmlschemas/GpxExtensions/v3"');
    expect(text).toContain('<gpxx:WaypointExtension><gpxx:Depth>18.5</gpxx:Depth></gpxx:WaypointExtension>');
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
