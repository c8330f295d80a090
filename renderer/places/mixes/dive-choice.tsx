import { useMemo, useState, type ReactNode } from 'react';
import { mixChoices } from '../../../core/mixes/choice';
import { nitrogenCurve } from '../../../core/mixes/nitrogen-curve';
import { richestMix } from '../../../core/mixes/richest';
import { planOf } from '../../../core/ledger/dive-plan';
import { mixO2 } from '../../../core/ledger/mix-choice';
import type { Dive, Diver, Trip } from '../../../core/document/types';
import { surroundingsAt } from '../../../core/document/waters';
import { setMix } from '../../actions/dives';
import { tell } from '../../actions/edit';
import { depthText, mixText, numberText, percentText } from '../../figures/format';
import { diveNumber, selectChosenDive, selectLedger, selectTightest } from '../../store/selectors';
import { useDesk } from '../../store/store';
import { WordChoice } from './in-sentence';
import { Later, diveName } from './dive-later';
import { DiveTable, onlyOf, tightestDiver } from './dive-table';
import { mixLines } from './mix-line';
import { chooseView, useMixesView } from './mixes-view';
import { richestText } from './mixes-words';
import { NitrogenChart } from './nitrogen-chart';
import styles from './dive-choice.module.css';

/** Past the last limit that is met, so much more is drawn, minutes; nothing past the most. */
const AFTER_MIN = 10;
const MOST_MIN = 240;

function Best(props: {
  readonly trip: Trip;
  readonly dive: Dive;
  readonly divers: readonly Diver[];
}): ReactNode {
  const { trip, dive, divers } = props;
  const units = useDesk(({ settings }) => settings.units);
  const around = surroundingsAt(trip, dive);
  const byText = new Map<string, string[]>();
  for (const diver of divers) {
    const best = richestMix(dive.depthM, diver, trip, around);
    const held = best.limit === 'ceiling' ? ' (own ceiling)' : '';
    const text = `${richestText(best)}${held}`;
    byText.set(text, [...(byText.get(text) ?? []), diver.name]);
  }
  const parts = [...byText].map(([text, names]) =>
    byText.size === 1 ? text : `${text} for ${names.join(', ')}`,
  );
  const tolerance = trip.settings.analysisTolerance;
  return (
    <p>
      Best mix at {depthText(dive.depthM, units)}: <strong>{parts.join('; ')}</strong>
      {tolerance > 0 ? `, ${percentText(tolerance, 'up')} kept back for the analysis` : ''}.
    </p>
  );
}

/** The mixes on board as the choice of one dive, within the trip as it stands. */
export function DiveChoice(): ReactNode {
  const ledger = useDesk(selectLedger);
  const chosen = useDesk(selectChosenDive);
  const tightest = useDesk(selectTightest);
  const clock = useDesk(({ settings }) => settings.clock);
  const diveId = useMixesView((view) => view.diveId);
  const diverId = useMixesView((view) => view.diverId);
  const [held, setHeld] = useState<string | null>(null);
  const { trip } = ledger;
  const dive =
    trip.dives.find(({ id }) => id === diveId) ?? chosen ?? tightest?.dive ?? trip.dives[0] ?? null;
  const choices = useMemo(() => (dive === null ? [] : mixChoices(ledger, dive.id)), [ledger, dive]);
  const [entries, onLoop] = useMemo(() => {
    const all = ledger.divers.flatMap((each) => each.entries.filter((entry) => entry.dive.id === dive?.id));
    return [all.filter(({ loop }) => loop === null), all.filter(({ loop }) => loop !== null)];
  }, [ledger, dive]);
  const shownId = entries.some(({ diver }) => diver.id === diverId) ? diverId : null;
  const shown = useMemo(
    () => (shownId === null ? choices : choices.map((choice) => onlyOf(choice, shownId))),
    [choices, shownId],
  );
  const lines = useMemo(() => mixLines(shown.map(({ mix }) => mix)), [shown]);
  const takenIds = new Set(
    entries.filter(({ diver }) => shownId === null || diver.id === shownId).map((entry) => entry.mix?.id),
  );
  const inHand = shown.some(({ mix }) => mix.id === held)
    ? held
    : (shown.find(({ mix }) => takenIds.has(mix.id))?.mix.id ?? null);
  // The picture is of one diver throughout: of whoever the mix as it stands leaves least.
  const ofDiver = useMemo(() => {
    const now = shown.find(({ mix }) => mix.id === entries[0]?.mix?.id) ?? shown[0];
    const least = now ? tightestDiver(now) : null;
    return least?.entry.diver ?? null;
  }, [shown, entries]);
  const picture = useMemo(() => {
    const entry = entries.find(({ diver }) => diver.id === ofDiver?.id);
    if (!entry) return null;
    const plan = planOf(trip, entry);
    const ask = (o2: number) => ({
      plan,
      before: entry.tensionsBefore,
      n2: 1 - o2,
      gradientHigh: entry.diver.gradient.high,
    });
    const met = shown.map(({ mix }) => nitrogenCurve(ask(mixO2(mix)), 1, 1).meetsMin);
    const finite = met.filter((min) => Number.isFinite(min));
    const untilMin = Math.min(MOST_MIN, Math.max(entry.bottomMin, ...finite) + AFTER_MIN);
    const drawn = shown.map(({ mix }, at) => ({
      id: mix.id,
      name: mixText(mix.analysedO2 ?? mix.o2),
      line: lines[at]!,
      curve: nitrogenCurve(ask(mixO2(mix)), untilMin, 0.5),
    }));
    return { drawn, untilMin, plannedMin: entry.bottomMin, diver: entry.diver };
  }, [entries, ofDiver, shown, lines, trip]);
  if (dive === null) {
    return <p className="soft">Plan a dive first: there are none under Days yet.</p>;
  }
  const hasAnalysis = entries.some(
    (entry) => dive.asDived?.some(({ o2 }) => o2 !== undefined) && entry.isMade,
  );
  return (
    <section aria-label="Mixes for one dive" className={styles.dive}>
      <div className={styles.head}>
        <WordChoice
          label="Dive"
          value={dive.id}
          options={trip.dives.map((each) => ({ value: each.id, label: diveName(trip, each, clock) }))}
          commit={(id) => chooseView({ diveId: id })}
        />
        <span>
          figures for{' '}
          <WordChoice
            label="Whose figures"
            value={shownId ?? ''}
            options={[
              { value: '', label: 'the party’s tightest' },
              ...entries.map(({ diver }) => ({ value: diver.id, label: diver.name })),
            ]}
            commit={(id) => chooseView({ diverId: id === '' ? null : id })}
          />
        </span>
        <button
          type="button"
          className="linked"
          disabled={dive.mix === 'auto'}
          onClick={() => tell(setMix(dive.id, 'auto'))}
        >
          Best mix for each diver
        </button>
      </div>
      {entries.length === 0 ? null : (
        <Best trip={trip} dive={dive} divers={entries.map(({ diver }) => diver)} />
      )}
      {onLoop.length === 0 ? null : (
        <p className="soft">
          On a loop, which breathes its diluent whatever is chosen here:{' '}
          {onLoop.map(({ diver }) => diver.name).join(', ')}.
        </p>
      )}
      {hasAnalysis ? (
        <p className="care">The cylinder of this dive was analysed: that rules, whatever mix is chosen.</p>
      ) : null}
      {entries.length === 0 && onLoop.length > 0 ? null : (
        <div className={styles.split}>
          <figure className={styles.picture}>
            {picture === null ? null : (
              <>
                <figcaption>
                  <strong>Nitrogen, were dive {diveNumber(trip, dive.id)} left now</strong>{' '}
                  <span className="soft">
                    share of the limit on surfacing, of {picture.diver.name}, over the minutes since the
                    surface; thin: compartments on the mix in hand, by half-time in minutes
                  </span>
                </figcaption>
                <NitrogenChart
                  lines={picture.drawn}
                  inHand={inHand}
                  plannedMin={picture.plannedMin}
                  untilMin={picture.untilMin}
                  label={`Nitrogen over dive ${diveNumber(trip, dive.id)} on each mix: ${picture.drawn
                    .map(({ name, curve }) =>
                      Number.isFinite(curve.meetsMin)
                        ? `${name} meets the limit at ${numberText(curve.meetsMin, 0, 'down')} min`
                        : `${name} never meets the limit`,
                    )
                    .join(', ')}`}
                  hasHalfTimes
                />
              </>
            )}
          </figure>
          <DiveTable
            dive={dive}
            choices={shown}
            lines={lines}
            takenIds={takenIds}
            inHand={inHand}
            hold={setHeld}
          />
        </div>
      )}
      {choices.map((choice) => (
        <Later key={choice.mix.id} choice={choice} trip={trip} />
      ))}
    </section>
  );
}
