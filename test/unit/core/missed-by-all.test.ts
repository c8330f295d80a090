/** A dive that nobody made has no entry: every door must pass over it, and none may fall over it. */
import { describe, expect, it } from 'vitest';
import { cautionsOf } from '../../../core/cautions/all';
import { demoTrip } from '../../../core/document/demo-trip';
import { EXPORT_FORMATS } from '../../../core/formats/all';
import { ledgerDocument } from '../../../core/formats/ledger-document';
import { ledger } from '../../../core/ledger/ledger';
import { wallMin } from '../../../core/words/calendar';
import { timelineOf } from '../../../core/ledger/timeline';
import { mixChoices } from '../../../core/mixes/choice';
import { SLATE_KINDS } from '../../../core/slate/request';
import { aPaper, layoutOf, wordsOf } from '../../support/slates';

const whole = demoTrip();
const [first] = whole.dives;
const ofDay = whole.dives.filter(({ startsAt }) => startsAt.startsWith('2027-03-15'));
const nobody = { notDived: [{ reason: 'swell' }] };
/** The first dive of the trip and a whole day: what begins, fills and ends each list. */
const trip = {
  ...whole,
  dives: whole.dives.map((dive) => (dive === first || ofDay.includes(dive) ? { ...dive, ...nobody } : dive)),
};

const END = wallMin('2027-03-21T00:00');
const STEPS = { waterMin: 2, surfaceMin: 10 };

describe('dives that nobody made', () => {
  it('are as good as not in the trip, for every figure', () => {
    const without = {
      ...whole,
      dives: whole.dives.filter((dive) => dive !== first && !ofDay.includes(dive)),
    };
    const [one, other] = [ledger(trip), ledger(without)];
    expect(ofDay.length).toBeGreaterThan(2);
    const bare = ({ divers }: ReturnType<typeof ledgerDocument>) =>
      divers.map((each) => ({ ...each, notDived: [] }));
    expect(bare(ledgerDocument(one, []))).toEqual(bare(ledgerDocument(other, [])));
    expect(cautionsOf(one)).toEqual(cautionsOf(other));
    expect(one.divers.map((each) => timelineOf(each, trip, END, STEPS))).toEqual(
      other.divers.map((each) => timelineOf(each, without, END, STEPS)),
    );
  });

  it('leave every page and every export whole', () => {
    for (const kind of SLATE_KINDS) {
      const { pages } = layoutOf(trip, { kind, ...(kind === 'tags' && { label: aPaper('70x42mm') }) });
      expect(pages.length, kind).toBeGreaterThan(0);
      expect(wordsOf(pages[0]!).length, kind).toBeGreaterThan(0);
    }
    const asked = { ledger: ledger(trip), stampedAtUtc: '2027-03-01T18:00:00Z' };
    for (const format of EXPORT_FORMATS)
      expect(format.write(asked).text.length, format.id).toBeGreaterThan(100);
  });

  it('have a choice of mixes that concerns nobody', () => {
    expect(mixChoices(ledger(trip), first!.id).every(({ divers }) => divers.length === 0)).toBe(true);
  });
});
