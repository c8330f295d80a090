import { useMemo, useRef, useState, type ReactNode } from 'react';
import type { Id } from '../../../core/document/types';
import { classCurves } from '../../../core/mixes/class-curves';
import {
  CLASS_DEPTHS_M,
  CLASS_DIVER,
  classAtDepth,
  classColumnSaid,
  classGases,
  classTrip,
  type ClassAtDepth,
} from '../../../core/mixes/class-dive';
import { figure, said } from '../../../core/words/said';
import { shortText } from '../../figures/format';
import { parseFigure } from '../../figures/parse';
import { CommandButton } from '../../parts/command-button';
import { useWords } from '../../parts/use-words';
import { useDesk } from '../../store/store';
import { ClassAsk } from './class-ask';
import { ClassWorkings } from './class-workings';
import { DepthPictures } from './class-depth';
import { ClassFigures } from './class-figures';
import { classFrame, gasLines } from './class-frame';
import { ClassLarge } from './class-large';
import { classLook } from './class-look';
import { WordField } from './in-sentence';
import { MinutesPicture } from './class-minutes';
import { chooseView, useMixesView } from './mixes-view';
import { CLASS_PAPER, useChartSize } from './use-chart-size';
import styles from './class-room.module.css';

/** Minutes across: an hour, unless every mix allows more. */
const SPANS_MIN = [60, 120, 240] as const;
/** The gas whose compartments are drawn where none is pointed at: the last, loop or richest, that can be used there. */
function usuallyInHand(gases: readonly ClassAtDepth[]): ClassAtDepth | null {
  return gases.findLast(({ past }) => past === null) ?? null;
}

/** Three pictures and a table, as large as what they stand in. */
function ClassPictures(props: { readonly isLarge: boolean }): ReactNode {
  const words = useWords();
  const classroom = useMixesView((view) => view.classroom);
  const units = useDesk(({ settings }) => settings.units);
  const { isLarge } = props;
  const { depthM, percents, loop, hasLoop } = classroom;
  const [pointedAt, setPointedAt] = useState<Id | null>(null);
  const box = useRef<HTMLDivElement>(null);
  const size = useChartSize(box, CLASS_PAPER);
  const known = useMemo(
    () => classGases(classTrip({ depthM: CLASS_DEPTHS_M[0], percents, loop: hasLoop ? loop : null })),
    [percents, loop, hasLoop],
  );
  const lines = useMemo(() => gasLines(known), [known]);
  const curves = useMemo(() => classCurves(known, 9, CLASS_DEPTHS_M[1], 0.5), [known]);
  const shortest = useMemo(
    () => Math.min(...classAtDepth(known, depthM, 1, 1).map(({ curve }) => curve.meetsMin)),
    [known, depthM],
  );
  const untilMin = SPANS_MIN.find((span) => shortest < span * 0.9) ?? SPANS_MIN[2];
  const gases = useMemo(
    () => classAtDepth(known, depthM, untilMin, untilMin / 60),
    [known, depthM, untilMin],
  );
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
  const inHand = gases.find(({ id }) => id === pointedAt) ?? usuallyInHand(gases);
  return (
    <div ref={box} className={styles.pictures}>
      {frame === null ? null : (
        <>
          <DepthPictures
            gases={gases}
            lines={lines}
            curves={curves}
            depthM={depthM}
            setDepth={setDepth}
            untilMin={untilMin}
            frame={frame}
            units={units}
          />
          <div className={styles.lower}>
            <ClassFigures gases={gases} lines={lines} depth={depth} take={isLarge ? null : setPointedAt} />
            <MinutesPicture
              gases={gases}
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
  const { depthM, isLarge } = classroom;
  const look = useMemo(() => classLook(classroom), [classroom]);
  const [showsWorkings, setShowsWorkings] = useState(false);
  const setDepth = (next: number): void => chooseView({ classroom: { ...classroom, depthM: next } });
  const setLarge = (next: boolean): void => chooseView({ classroom: { ...classroom, isLarge: next } });
  const onLoop = useMemo(() => classGases(classTrip(look)).find(({ loop }) => loop !== null), [look]);
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
          on <ClassAsk />
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
          note={`a first dive, ${limits}${onLoop ? `\n${words(classColumnSaid(onLoop))}` : ''}`}
          leave={() => setLarge(false)}
        >
          <ClassPictures isLarge />
        </ClassLarge>
      ) : (
        <ClassPictures isLarge={false} />
      )}
      {showsWorkings ? <ClassWorkings look={look} /> : null}
    </section>
  );
}
