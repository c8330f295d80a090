import type { ReactNode } from 'react';
import { listed } from '../../../core/cautions/wording';
import { keptTogether } from '../../../core/line-breaks';
import type { Trip } from '../../../core/document/types';
import { dateText } from '../../figures/format';
import { diveNumber } from '../../store/selectors';
import { SEVERITY_WORDS } from '../../parts/caution-list';
import type { Caution } from '../../../core/cautions/caution';

interface PrintedCautionsProps {
  readonly cautions: readonly Caution[];
  readonly trip: Trip;
}

/**
 * Every caution of the trip on paper: the first of each kind in full, then whom and what it concerns besides.
 * A fortnight for twelve raises many hundred that differ in their figures alone; nobody reads sixty pages.
 */
export function PrintedCautions({ cautions, trip }: PrintedCautionsProps): ReactNode {
  const kinds = grouped(cautions, ({ severity, code }) => `${severity} ${code}`);
  return (
    <ul className="cautions printed">
      {[...kinds].map(([kind, alike]) => {
        const first = alike[0]!;
        const same = alike.filter(
          ({ diveId, message }) => diveId === first.diveId && message === first.message,
        );
        const others = alike.filter((each) => !same.includes(each));
        const dive = trip.dives.find(({ id }) => id === first.diveId);
        return (
          <li key={kind} className={first.severity}>
            <span className="severity">{SEVERITY_WORDS[first.severity]}</span>
            <div>
              <p>
                {dive ? `Dive ${diveNumber(trip, dive.id)}, ${dateText(dive.startsAt)}` : 'The trip'}
                {whose(same, trip)}: {keptTogether(first.message)}
              </p>
              {others.length > 0 ? (
                <p>Alike, each with figures of its own: {placesOf(others, trip).join('; ')}.</p>
              ) : null}
              <p className="soft">Source: {first.source}</p>
            </div>
          </li>
        );
      })}
    </ul>
  );
}

/** ", Guest 1 and Guest 2", ", everybody but Guest 3"; nothing where a caution concerns the whole party. */
function whose(cautions: readonly Caution[], trip: Trip): string {
  const ids = new Set(cautions.map(({ diverId }) => diverId));
  if (trip.party.length === 1 || ids.has(null)) return '';
  const [those, others] = [true, false].map((is) =>
    trip.party.filter(({ id }) => ids.has(id) === is).map(({ name }) => name),
  );
  if (others!.length === 0) return ', everybody';
  return others!.length < those!.length ? `, everybody but ${listed(others!)}` : `, ${listed(those!)}`;
}

/** "dive 9, Guest 2 and Guest 6", one for each dive. */
function placesOf(cautions: readonly Caution[], trip: Trip): readonly string[] {
  const byDive = grouped(cautions, ({ diveId }) => diveId);
  return [...byDive].map(([diveId, ofDive]) => {
    const place = diveId === null ? 'the trip' : `dive ${diveNumber(trip, diveId)}`;
    return `${place}${whose(ofDive, trip)}`;
  });
}

/** Those of one key together, in the order of the first of each. */
function grouped<Key>(
  cautions: readonly Caution[],
  keyOf: (caution: Caution) => Key,
): ReadonlyMap<Key, readonly Caution[]> {
  const groups = new Map<Key, Caution[]>();
  for (const caution of cautions) {
    const held = groups.get(keyOf(caution));
    if (held) held.push(caution);
    else groups.set(keyOf(caution), [caution]);
  }
  return groups;
}
