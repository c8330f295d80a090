import { describe, expect, it } from 'vitest';
import { readSites } from '../../../../core/formats/all';
import { readKml } from '../../../../core/formats/kml';

function kml(body: string): string {
  return `<?xml version="1.0"?>\n<kml xmlns="http://www.opengis.net/kml/2.2"><Document><name>Cays</name>${body}</Document></kml>`;
}

const point = (coordinates: string, more = '') =>
  `<Point>${more}<coordinates>${coordinates}</coordinates></Point>`;

const placed = (inside: string) => readKml(kml(`<Placemark><name>A</name>${inside}</Placemark>`));

describe('readKml', () => {
  it('reads name, description, position and depth, in folders too, whichever way depth is said', () => {
    const data = '<ExtendedData><Data name="Depth"><value>18.5</value></Data></ExtendedData>';
    const simple =
      '<ExtendedData><SchemaData schemaUrl="#s"><SimpleData name="depth">21</SimpleData></SchemaData></ExtendedData>';
    const body =
      `<Placemark><name>Kettle Rock</name><description>sand &amp; weed</description>${data}${point('41.5,-7.25,0')}</Placemark>` +
      `<Folder><Folder><Placemark><name>Far Bank</name>${simple}${point(' 41.6,-7.3 ')}</Placemark></Folder></Folder>`;
    expect(readKml(kml(body))).toEqual({
      sites: [
        { name: 'Kettle Rock', depthM: 18.5, notes: 'sand & weed', position: { lat: -7.25, lon: 41.5 } },
        { name: 'Far Bank', depthM: 21, notes: '', position: { lat: -7.3, lon: 41.6 } },
      ],
      troubles: [],
    });
  });

  it('suggests a height below the sea only where the file says that it is one', () => {
    const absolute = '<altitudeMode>absolute</altitudeMode>';
    expect(placed(point('1,2,-21.43', absolute)).sites[0]).toMatchObject({
      depthM: null,
      suggestion: { from: 'elevation', depthM: 21.5 },
    });
    for (const none of [point('1,2,-21'), point('1,2,5', absolute), point('1,2', absolute)]) {
      expect(placed(none).sites[0]).toEqual({
        name: 'A',
        depthM: null,
        notes: '',
        position: { lat: 2, lon: 1 },
      });
    }
  });

  it('calls a placemark without a name by its number', () => {
    const body = `<Placemark><name>A</name>${point('1,2')}</Placemark><Placemark>${point('1,2')}</Placemark>`;
    expect(readKml(kml(body)).sites.map(({ name }) => name)).toEqual(['A', 'Placemark 2']);
  });

  it('takes the text of a description in HTML, and leaves one without it as it stands', () => {
    const described = (text: string) =>
      placed(`<description><![CDATA[${text}]]></description>${point('1,2')}`).sites[0]!.notes;
    expect(described('<p><b>Current</b> &amp; swell</p><br/>below 20&nbsp;m')).toBe(
      'Current & swell\nbelow 20 m',
    );
    expect(described('depth < 20 m, >5 &amp; calm')).toBe('depth < 20 m, >5 &amp; calm');
  });

  it('names each placemark that cannot be a site, and takes the others', () => {
    const line = '<LineString><coordinates>1,2 3,4</coordinates></LineString>';
    const bodies = [
      `<name>Good</name><MultiGeometry>${point('1,2')}</MultiGeometry>`,
      `<name>Route</name>${line}`,
      `<name>Two</name><MultiGeometry>${point('1,2')}${point('3,4')}</MultiGeometry>`,
      `<name>Far</name>${point('1,91')}`,
      `<name>Odd</name>${point('1,2 3,4')}`,
      `<name>Deep</name><ExtendedData><Data name="depth"><value>deep</value></Data></ExtendedData>${point('1,2')}`,
    ];
    const { sites, troubles } = readKml(kml(bodies.map((each) => `<Placemark>${each}</Placemark>`).join('')));
    expect(sites.map(({ name }) => name)).toEqual(['Good']);
    expect(troubles.map(({ where }) => where)).toEqual([
      'placemark 2 ("Route")',
      'placemark 3 ("Two")',
      'placemark 4 ("Far")',
      'placemark 5 ("Odd")',
      'placemark 6 ("Deep")',
    ]);
    expect(troubles[0]).toMatchObject({
      what: 'It has no point; lines and areas are no sites.',
      mend: 'Mark the site with a point, or leave it out.',
    });
  });

  it('is told from waypoints by what it begins with', () => {
    const body = `<Placemark><name>A</name>${point('1,2')}</Placemark>`;
    expect(readSites(`\uFEFF${kml(body)}`).sites).toHaveLength(1);
    expect(readSites(kml(body).replaceAll(/<(\/?)(?=[A-Za-z])/g, '<$1k:')).sites).toHaveLength(1);
    expect(readSites(kml('')).troubles[0]!.what).toBe('There is no placemark in this file.');
    expect(readSites('<html/>').troubles[0]!.what).toContain('not GPX');
  });
});
