import { describe, expect, it } from 'vitest';
import { demoTrip } from '../../../../../core/document/demo-trip';
import { readUddf } from '../../../../../core/formats/uddf/read-uddf';
import { writeUddf, xmlId } from '../../../../../core/formats/uddf/write-uddf';
import { ledger } from '../../../../../core/ledger/ledger';
import type { Dive } from '../../../../../core/document/types';
import { aDive, aDiver, aTrip } from '../../../../builders/trip';
import { brokenReferences, schemaTrouble } from '../../../../support/uddf-schema';

const STAMP = '2027-03-01T18:00:00Z';

function written(dives: readonly Dive[], which?: 'all' | 'dived') {
  const trip = aTrip(dives, { party: [aDiver(), aDiver({ id: 'guest 2', name: 'Guest 2 & <friend>' })] });
  return writeUddf(ledger(trip), 'guest-1', STAMP, which);
}

describe('writeUddf', () => {
  it('writes the demo for every diver, valid by the schema and with every reference standing', () => {
    const whole = ledger(demoTrip());
    for (const { diver } of whole.divers) {
      const { text } = writeUddf(whole, diver.id, STAMP);
      expect(schemaTrouble(text)).toBeNull();
      expect(brokenReferences(text)).toEqual([]);
    }
  });

  it('has its schema refuse what it does not write', () => {
    const { text } = written([aDive()]);
    expect(schemaTrouble(text)).toBeNull();
    expect(schemaTrouble(text.replace('<depth>20</depth>', '<depth>NaN</depth>'))).toContain('depth');
    expect(schemaTrouble(text.replace('version="3.2.2"', 'version="3.2.2" own="1"'))).toContain('own');
    expect(schemaTrouble(text.replace('uddf/3.2/', 'uddf/3.0/'))).not.toBeNull();
    expect(brokenReferences(text.replace(' id="site-wall"', ' id="site-other"'))).toEqual(['site-wall']);
  });

  it('gives a planned dive its profile corner by corner, and no samples', () => {
    const { text, remarks } = written([aDive({ id: 'd', depthM: 18, bottomMin: 40 })]);
    const corners = [...text.matchAll(/<depth>([\d.]+)<\/depth><divetime>(\d+)</g)].map(([, m, s]) => [
      +m!,
      +s!,
    ]);
    expect(corners).toEqual([
      [0, 0],
      [18, 60],
      [18, 2400],
      [5, 2487],
      [5, 2667],
      [0, 2700],
    ]);
    expect(text).toContain(
      '<decostop kind="safety" decodepth="5" duration="180"/><depth>5</depth><divetime>2487<',
    );
    expect(text).not.toContain('<samples>');
    expect(text).toContain('planned, not dived yet');
    expect(remarks.join(' ')).toContain('1 dive is planned, not dived');
  });

  it('writes what was dived as samples, with the pressure left, and leaves out what was missed', () => {
    const dives = [
      aDive({ id: 'one', asDived: [{ by: 'guest-1', depthM: 21.5, bottomMin: 25, endBar: 80 }] }),
      aDive({ id: 'two', startsAt: '2027-03-06T12:00', notDived: [{}] }),
      aDive({ id: 'three', startsAt: '2027-03-06T15:00' }),
    ];
    const { text, remarks } = written(dives);
    expect(text).toContain('<greatestdepth>21.5</greatestdepth>');
    expect(text).toContain('<tankpressureend>8000000</tankpressureend>');
    expect(text).not.toContain('dive-two');
    expect(remarks.join(' ')).toContain('Not dived, and so not in the file: 1 dive');
    expect(schemaTrouble(text)).toBeNull();
    const dived = written(dives, 'dived');
    expect(dived.text).not.toContain('dive-three');
    expect(dived.remarks).toEqual([]);
    expect(readUddf(dived.text, 9).dives).toMatchObject([
      { diver: 'Guest 1', site: 'Wall', startsAt: '2027-03-06T08:00', depthM: 21.5, o2: 0.21, endBar: 80 },
    ]);
  });

  it('keeps names as they are and makes ids that XML can have', () => {
    const { text } = written([aDive({ id: 'ä b:1' })]);
    expect(text).toContain('<firstname>Guest 2 &amp; &lt;friend&gt;</firstname>');
    expect(text).toContain('id="dive-_e4_b'.replace('b', '_20_b'));
    expect(xmlId('dive', 'a b')).not.toBe(xmlId('dive', 'a_20_b'));
    expect(schemaTrouble(text)).toBeNull();
  });
});
