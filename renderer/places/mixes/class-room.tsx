import { useMemo, useRef, useState, type ReactNode } from 'react';
import type { Id } from '../../../core/document/types';
import {
  CLASS_DEPTHS_M,
  CLASS_DIVER,
  classMixes,
  classTrip,
  type ClassMix,
} from '../../../core/mixes/class-dive';
import { depthCurves } from '../../../core/mixes/depth-curve';
import { LEANEST_PERCENT, RICHEST_PERCENT } from '../../../core/mixes/shares';
import { figure, said } from '../../../core/words/said';
import { mixSaid } from '../../../core/words/terms';
import { shortText } from '../../figures/format';
import { parseFigure } from '../../figures/parse';
import { CommandButton } from '../../parts/command-button';
import { useSize } from '../../parts/use-size';
import { useWords } from '../../parts/use-words';
import { useDesk } from '../../store/store';
import { ClassWorkings } from './class-workings';
import { DepthPictures } from './class-depth';
import { ClassFigures } from './class-figures';
import { classFrame } from './class-frame';
import { ClassLarge } from './class-large';
import { MinutesPicture } from './class-minutes';
import { WordChoice, WordField } from './in-sentence';
import { mixLines } from './mix-line';
import { chooseView, useMixesView } from './mixes-view';
import styles from './class-room.module.css';

/** Minutes across: an hour, unless every mix allows more. */
const SPANS_MIN = [60, 120, 240] as const;
const MOST_MIXES = 4;
const AIR_PERCENT = 21;

const SHARES = [
  AIR_PERCENT,
  ...Array.from({ length: RICHEST_PERCENT - LEANEST_PERCENT + 1 }, (_, i) => LEANEST_PERCENT + i),
];

function MixWords(): ReactNode {
  const words = useWords();
  const percents = useMixesView((view) => view.classroom.percents);
  const classroom = useMixesView((view) => view.classroom);
  const choose = (next: readonly number[]): void =>
    chooseView({ classroom: { ...classroom, percents: next.toSorted((a, b) => a - b) } });
  const left = SHARES.filter((percent) => !percents.includes(percent));
  return (
    <>
      {percents.map((percent, at) => (
        <span key={percent}>
          <WordChoice
            label={`Mix ${at + 1}`}
            value={String(percent)}
            options={[
              ...SHARES.filter((each) => each === percent || left.includes(each)).map((each) => ({
                value: String(each),
                label: words(mixSaid(each / 100)),
              })),
              ...(percents.length > 2 ? [{ value: 'none', label: 'leave out' }] : []),
            ]}
            commit={(value) =>
              choose(
                value === 'none'
                  ? percents.filter((each) => each !== percent)
                  : percents.map((each) => (each === percent ? Number(value) : each)),
              )
            }
          />{' '}
        </span>
      ))}
      {percents.length < MOST_MIXES ? (
        <button
          type="button"
          className="linked"
          onClick={() =>
            choose([...percents, left.find((percent) => percent > Math.max(...percents)) ?? left[0]!])
          }
        >
          add a mix
        </button>
      ) : null}
    </>
  );
}

/** The mix whose compartments are drawn where none is pointed at: the richest that can be used there. */
function usuallyInHand(mixes: readonly ClassMix[]): ClassMix | null {
  return mixes.findLast(({ isPastMod }) => !isPastMod) ?? null;
}

/** Three pictures and a table, as large as what they stand in. */
function ClassPictures(props: { readonly isLarge: boolean }): ReactNode {
  const words = useWords();
  const classroom = useMixesView((view) => view.classroom);
  const units = useDesk(({ settings }) => settings.units);
  const { isLarge } = props;
  const { depthM, percents } = classroom;
  const [pointedAt, setPointedAt] = useState<Id | null>(null);
  const box = useRef<HTMLDivElement>(null);
  const size = useSize(box);
  const trip = useMemo(() => classTrip(26, percents), [percents]);
  const lines = useMemo(() => mixLines(trip.mixes), [trip]);
  const curves = useMemo(
    () => depthCurves(trip, trip.mixes, [CLASS_DIVER], 9, CLASS_DEPTHS_M[1], 0.5),
    [trip],
  );
  const shortest = useMemo(
    () => Math.min(...classMixes(trip, depthM, 1, 1).map(({ curve }) => curve.meetsMin)),
    [trip, depthM],
  );
  const untilMin = SPANS_MIN.find((span) => shortest < span * 0.9) ?? SPANS_MIN[2];
  const mixes = useMemo(() => classMixes(trip, depthM, untilMin, untilMin / 60), [trip, depthM, untilMin]);
  const frame = useMemo(() => {
    // In a sheet that is not open yet there is no room.
    if (size === null || size.heightPx === 0) return null;
    const remPx = Number.parseFloat(getComputedStyle(document.documentElement).fontSize);
    return classFrame(size.widthPx, size.heightPx, remPx, isLarge);
  }, [size, isLarge]);
  const setDepth = (next: number): void => {
    const [least, most] = CLASS_DEPTHS_M;
    chooseView({ classroom: { ...classroom, depthM: Math.min(most, Math.max(least, next)) } });
  };
  const depth = words(said`${figure('depthSet', depthM)}`);
  const inHand = mixes.find(({ mix }) => mix.id === pointedAt) ?? usuallyInHand(mixes);
  return (
    <div ref={box} className={styles.pictures}>
      {frame === null ? null : (
        <>
          <DepthPictures
            mixes={mixes}
            lines={lines}
            curves={curves}
            depthM={depthM}
            setDepth={setDepth}
            untilMin={untilMin}
            frame={frame}
            units={units}
          />
          <div className={styles.lower}>
            <ClassFigures mixes={mixes} lines={lines} depth={depth} take={isLarge ? null : setPointedAt} />
            <MinutesPicture
              mixes={mixes}
              lines={lines}
              untilMin={untilMin}
              frame={frame}
              inHand={isLarge ? null : inHand}
              depth={depth}
            />
          </div>
        </>
      )}
    </div>
  );
}

/** For whoever explains why: what mixes do at a depth, in three pictures and a table; nothing of it is in the trip. */
export function ClassRoom(): ReactNode {
  const words = useWords();
  const classroom = useMixesView((view) => view.classroom);
  const units = useDesk(({ settings }) => settings.units);
  const { depthM, percents, isLarge } = classroom;
  const [showsWorkings, setShowsWorkings] = useState(false);
  const setDepth = (next: number): void => chooseView({ classroom: { ...classroom, depthM: next } });
  const setLarge = (next: boolean): void => chooseView({ classroom: { ...classroom, isLarge: next } });
  const { low, high } = CLASS_DIVER.gradient;
  const limits = `limits at ${shortText(low * 100, 0)} / ${shortText(high * 100, 0)} of the M-value`;
  return (
    <section aria-label="In class" className={styles.room}>
      <div className={styles.ask}>
        <span>
          At{' '}
          <WordField
            label="Depth"
            value={depthM}
            show={(shown) => words(said`${figure('depthSet', shown)}`)}
            parse={(text) => {
              const depth = parseFigure(text, 'depth', units);
              const [least, most] = CLASS_DEPTHS_M;
              if (depth.ok && (depth.value < least || depth.value > most)) {
                const range = words(said`${figure('depthSet', least)} to ${figure('depthSet', most)}`);
                return {
                  ok: false,
                  what: `The class goes from ${range}.`,
                  mend: 'Type a depth between them.',
                };
              }
              return depth;
            }}
            commit={setDepth}
          />{' '}
          on <MixWords />
        </span>
        <span className="soft">
          a first dive, {limits}, PO2 limit {words(said`${figure('po2Limit', CLASS_DIVER.po2.working)}`)};
          nothing here is kept in the trip
        </span>
        <span className={styles.links}>
          <button type="button" className="linked" onClick={() => setLarge(true)}>
            Large type
          </button>
          <button
            type="button"
            className="linked"
            aria-expanded={showsWorkings}
            onClick={() => setShowsWorkings(!showsWorkings)}
          >
            Workings
          </button>
          <CommandButton id="view.exercises" className="linked">
            Exercises
          </CommandButton>
          <CommandButton id="trip.print" className="linked">
            Print
          </CommandButton>
        </span>
      </div>
      {isLarge ? (
        <ClassLarge
          title={`What the mix changes at ${words(said`${figure('depthSet', depthM)}`)}`}
          note={`a first dive, ${limits}`}
          leave={() => setLarge(false)}
        >
          <ClassPictures isLarge />
        </ClassLarge>
      ) : (
        <ClassPictures isLarge={false} />
      )}
      {showsWorkings ? <ClassWorkings depthM={depthM} percents={percents} /> : null}
    </section>
  );
}
