/** Lists of sites and waypoints: random ones, and ones made to be slow. */
import fc from 'fast-check';
import { readSites } from '../../core/formats/all';
import { MAX_TEXT_LENGTH, type SiteReading } from '../../core/formats/site-draft';
import { textTrouble } from '../../core/document/texts';
import type { Attack } from './attack';
import { fuzz } from './fuzz';
import { hostileAttack, type Hostile } from './hostile';

const LONGEST_MS = 50;

/** So much a list may take for each of its letters, ms: a second for the longest. */
const MS_PER_LETTER = 1000 / MAX_TEXT_LENGTH;

/** A reading that may be shown: short messages, and names that the trip would take. */
function judge(reading: SiteReading): 'read' | 'refused' {
  for (const { what, where, mend } of reading.troubles) {
    if (what === '' || mend === '' || /undefined|NaN/.test(what)) throw new Error(`said "${what}"`);
    if (`${what}${where}${mend}`.length > 500) throw new Error('a message without an end');
  }
  for (const { name, notes } of reading.sites) {
    if (textTrouble('name', name) ?? textTrouble('siteNotes', notes))
      throw new Error(`took ${JSON.stringify(name)}`);
  }
  return reading.troubles.length === 0 ? 'read' : 'refused';
}

const answer = (text: string): 'read' | 'refused' => judge(readSites(text));

/** Lengths on a scale of octaves, so that there are some of each. */
const times = fc
  .oneof(
    { weight: 20, arbitrary: fc.integer({ min: 0, max: 10 }) },
    { weight: 1, arbitrary: fc.integer({ min: 11, max: 16 }) },
  )
  .map((octave) => 2 ** octave);

const piece = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.constantFrom('Kettle Rock', '18', '18.5', '12,5', 'm', 'ft', '60ft', "12° 20.7' S"),
  },
  { weight: 6, arbitrary: fc.constantFrom(',', ';', '\t', ' ', '\n', '\r\n', '"', "'", '-', ':', '=', '=1') },
  {
    weight: 2,
    arbitrary: fc.constantFrom(
      'N',
      'S',
      'E',
      'W',
      '41.5 E',
      'name',
      'depth',
      '(m)',
      '""',
      '\u001b',
      '\u200b',
    ),
  },
  { weight: 1, arbitrary: fc.string({ maxLength: 4 }) },
);

/** Rows that read, some of them with a piece gone wrong, one of which may be repeated. */
const lists = fc
  .tuple(
    fc.array(
      fc.array(piece, { maxLength: 8 }).map((pieces) => pieces.join('')),
      { maxLength: 4 },
    ),
    fc.constantFrom('Reef\t18', 'Reef;18;notes', 'Reef, 18, 12.5, 41.5', 'Reef 18 m'),
    fc.tuple(piece, times, fc.boolean()),
  )
  .map(([rows, sound, [again, count, isRows]]) =>
    [
      sound,
      ...rows,
      isRows ? `Wall\t18\t${again.repeat(count)}` : `${again}\n`.repeat(Math.min(count, 400)),
    ].join('\n'),
  );

const XML_PIECES = fc.constantFrom(
  '<',
  '>',
  '/>',
  '</',
  '<!--',
  '-->',
  '<![CDATA[',
  ']]>',
  '&amp;',
  '&',
  '&#10;',
  '<?x?>',
  '<!DOCTYPE gpx>',
  '"',
  ' ',
  'x',
);

const waypoints = fc
  .tuple(
    fc.array(
      fc.record({
        lat: fc.oneof(
          fc.double({ min: -90, max: 90, noNaN: true }).map((each) => each.toFixed(4)),
          piece,
        ),
        name: fc.oneof(fc.constantFrom('Kettle Rock', 'Reef &amp; Wall'), XML_PIECES),
        inside: fc.oneof(fc.constantFrom('', '<ele>-18</ele>', '<desc>a</desc>'), XML_PIECES),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    fc.tuple(
      fc.constantFrom('a', ' ', '<b/>', '<b>', '&lt;', '<!-- a -->', ' x=""', '&'),
      times,
      fc.nat({ max: 20 }),
    ),
  )
  .map(([points, [again, count, at]]) => {
    const body = points
      .map(({ lat, name, inside }) => `<wpt lat="${lat}" lon="2"><name>${name}</name>${inside}</wpt>`)
      .join('');
    const filler = at < 6 ? again.repeat(count) : '';
    return `<gpx><metadata><desc>${filler}</desc></metadata>${body}</gpx>`;
  });

/** What stands in a placemark, sound or gone wrong. */
const inPlacemark = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.constantFrom(
      '<Point><coordinates>41.5,-7.25,-18</coordinates></Point>',
      '<Point><altitudeMode>absolute</altitudeMode><coordinates> 41.5,-7.25,-18.4 </coordinates></Point>',
      '<ExtendedData><Data name="Depth"><value>18</value></Data></ExtendedData>',
      '<description>sand &amp; weed</description>',
      '<description><![CDATA[<p>sand<br>weed</p>]]></description>',
    ),
  },
  {
    weight: 1,
    arbitrary: fc.constantFrom(
      '<LineString><coordinates>1,2 3,4</coordinates></LineString>',
      '<MultiGeometry><Point><coordinates>1,2</coordinates></Point></MultiGeometry>',
      '<Point><coordinates>1,2 3,4</coordinates></Point>',
      '<Point><coordinates>,</coordinates></Point>',
      '<description>&lt;a &lt;b</description>',
    ),
  },
  {
    weight: 1,
    arbitrary: piece.map(
      (each) => `<ExtendedData><Data name="depth"><value>${each}</value></Data></ExtendedData>`,
    ),
  },
  { weight: 1, arbitrary: XML_PIECES },
);

const placemarks = fc
  .tuple(
    fc.array(
      fc.record({
        name: fc.oneof(
          { weight: 4, arbitrary: fc.constantFrom('Kettle Rock', 'Reef &amp; Wall', '') },
          XML_PIECES,
        ),
        isPlain: fc.boolean(),
        inside: fc.array(inPlacemark, { maxLength: 3 }),
      }),
      { minLength: 1, maxLength: 3 },
    ),
    fc.tuple(
      fc.constantFrom('a', ' ', '<b/>', '&lt;a ', '<br>', '&lt;', '&amp;lt;'),
      times,
      fc.nat({ max: 20 }),
    ),
    fc.constantFrom('', '<Folder>', '<Folder><Folder>'),
  )
  .map(([places, [again, count, at], folders]) => {
    const body = places
      .map(({ name, isPlain, inside }) => {
        const point = isPlain ? '<Point><coordinates>41.5,-7.25</coordinates></Point>' : inside.join('');
        return `<Placemark><name>${name}</name>${point}</Placemark>`;
      })
      .join('');
    const filler = at < 6 ? again.repeat(count) : '';
    const ends = folders.replaceAll('<', '</');
    const long = `<Placemark><name>Wall</name><description>${filler}</description><Point><coordinates>1,2</coordinates></Point></Placemark>`;
    return `<kml><Document>${folders}${body}${long}${ends}</Document></kml>`;
  });

const limits = {
  sizeOf: (text: string) => text.length,
  answer,
  longestMs: (size: number) => LONGEST_MS + size * MS_PER_LETTER,
  steepest: 1.6,
  warmUp: ['Reef\t18\nWall\t20', '<gpx><wpt lat="1" lon="2"><name>A</name></wpt></gpx>'],
};

export const siteListAttack: Attack = {
  title: 'Random lists of sites',
  whole: 100_000,
  quick: 3000,
  run: (count) => fuzz({ ...limits, inputs: lists }, count),
};

export const waypointAttack: Attack = {
  title: 'Random waypoints (GPX)',
  whole: 100_000,
  quick: 3000,
  run: (count) => fuzz({ ...limits, inputs: waypoints }, count),
};

export const placemarkAttack: Attack = {
  title: 'Random placemarks (KML)',
  whole: 100_000,
  quick: 3000,
  run: (count) => fuzz({ ...limits, inputs: placemarks }, count),
};

function filled(what: string, head: string, fill: string, tail = ''): Hostile {
  return { what, textOf: (length) => head + fill.repeat(Math.floor(length / fill.length)) + tail };
}

export const HOSTILE_SITES: readonly Hostile[] = [
  filled('rows', '', 'Reef\t18\n'),
  filled('blank rows', '', ' ; ;\n'),
  filled('line breaks', '', '\n', 'Reef\t18'),
  filled('letters of the latitude', 'Reef\t18\t', 'S', ' W'),
  filled('letters of both', 'Reef\t18\t', 'N E '),
  filled('figures that may be a position', 'Reef\t18\t', '1 ', 'E'),
  filled('figures with letters', 'Reef\t18\t12 N', ' 1', ' E'),
  filled('digits', 'Reef\t', '1'),
  filled('digits and blanks', 'Reef,18', ',1 ', 'x'),
  filled('a name of blanks', 'a', ' ', 'b 18'),
  filled('a name of words', '', 'a ', '18 m'),
  filled('a depth behind blanks', 'Reef', ' ', '18 x'),
  filled('quotation marks', '"', '"'),
  filled('quotation marks and commas', '', '",'),
  filled('quotation marks never closed', '', '"a\n'),
  filled('doubled quotation marks', '"a', '""', '",18'),
  filled('commas', 'Reef,18', ','),
  filled('semicolons and commas', 'Reef;18', ';,'),
  filled('tabs', 'Reef\t18', '\t'),
  filled('headings', 'name\tdepth', '\tx'),
  filled('a heading of blanks', 'name\tdepth\t', '( )', ' m'),
  filled('apostrophes', "'", "'", ',18'),
  filled('notes', 'Reef\t18\t', 'x'),
];

export const HOSTILE_WAYPOINTS: readonly Hostile[] = [
  filled(
    'placemarks',
    '<kml><Document>',
    '<Placemark><name>A</name><Point><coordinates>1,2</coordinates></Point></Placemark>',
    '</Document></kml>',
  ),
  filled(
    'a description of tags that never end',
    '<kml><Placemark><name>A</name><Point><coordinates>1,2</coordinates></Point><description>',
    '&lt;a ',
    '</description></Placemark></kml>',
  ),
  filled('waypoints', '<gpx>', '<wpt lat="1" lon="2"><name>A</name></wpt>', '</gpx>'),
  filled('empty elements', '<gpx>', '<a/>', '</gpx>'),
  filled('elements in elements', '', '<a>'),
  filled('attributes', '<gpx', ' a=""', '/>'),
  filled('a long attribute', '<gpx a="', 'x', '"/>'),
  filled('a long name', '<', 'a', '/>'),
  filled('text', '<gpx>', 'x', '</gpx>'),
  filled('references', '<gpx>', '&lt;', '</gpx>'),
  filled('a reference without an end', '<gpx>&', 'a'),
  filled('comments', '<gpx>', '<!-- -->', '</gpx>'),
  filled('a comment of dashes', '<gpx><!--', '- '),
  filled('plain sections', '<gpx>', '<![CDATA[x]]>', '</gpx>'),
  filled('a plain section of brackets', '<gpx><![CDATA[', ']'),
  filled('a document type', '<!DOCTYPE gpx [', '<!ENTITY a "b">'),
  filled('line breaks', '<gpx>', '\n', '<'),
  filled('blanks before', '', ' ', '<gpx/>'),
  filled('processing instructions', '<gpx>', '<?a b?>', '</gpx>'),
  filled('ends', '<gpx>', '</a>'),
  filled('digits of a position', '<gpx><wpt lat="', '0', 'x" lon="2"><name>A</name></wpt></gpx>'),
];

const LONGEST = MAX_TEXT_LENGTH - 1000;

export const hostileSiteAttack = hostileAttack(
  'Lists of sites made to be slow',
  HOSTILE_SITES,
  answer,
  LONGEST,
);

export const hostileWaypointAttack = hostileAttack(
  'Waypoints made to be slow',
  HOSTILE_WAYPOINTS,
  answer,
  LONGEST,
);
