/** The water with its dives: choosing one or several, dragging, adding. */
import { useMemo, useRef, type MouseEvent, type ReactNode } from 'react';
import type { DepthScale } from './depth-scale';
import { loadPart } from '../../../actions/load-part';
import { lazily, WITHOUT } from '../../../parts/lazily';
import { say } from '../../../store/notice';
import { ChosenWords, DiveMark, HATCH_ID } from './dive-mark';
import type { HourMark } from './hours';
import type { DiveView } from './dive-view';
import type { Placement } from './labels';
import type { Mark, MarksSource } from './marks';
import { KEY_HELP } from './strip-key-list';
import type { StripLayout } from './strip-layout';
import type { Reader } from './strip-words';
import { momentOf, type TimeScale } from './time-scale';
import type { DiveDrag } from './use-dive-drag';
import { useDiveKeys } from './use-dive-keys';
import { useFrame } from './use-frame';
import { TabStop } from './tab-stop';
import type { Zoom } from './use-zoom';
import { Lamps, Water, Waterline } from './water';
import styles from './dives.module.css';

/** What the held dive has become; the hand has moved a while before it is read. */
const LiveFigures = lazily(
  () => import('./live-figures'),
  (part) => part.LiveFigures,
  WITHOUT,
);

interface DiveListProps {
  /** In order of start, as `marks`. */
  readonly views: readonly DiveView[];
  readonly marks: readonly Mark[];
  /** What the marks were made of, and where their words stand. */
  readonly source: MarksSource;
  readonly placement: Placement;
  readonly time: TimeScale;
  readonly depth: DepthScale;
  readonly layout: StripLayout;
  readonly zoom: Zoom;
  readonly drag: DiveDrag;
  readonly reader: Reader;
  readonly textScale: number;
  readonly hours: readonly HourMark[];
  readonly pastX: number | null;
}

export function DiveList(props: DiveListProps): ReactNode {
  const { views, marks, time, depth, layout, drag, reader, textScale } = props;
  const list = useRef<SVGGElement>(null);
  const keys = useDiveKeys(list, views, props.zoom);
  const ids = useMemo(() => views.map(({ id }) => id), [views]);
  const { frame, ...framing } = useFrame(ids, marks, layout.skyPx);
  const liveAt = drag.live === null ? -1 : views.findIndex((view) => view.id === drag.live?.diveId);
  const liveView = views[liveAt];
  const liveMark = marks[liveAt];

  const addHere = (event: MouseEvent<SVGSVGElement>) => {
    if (event.target instanceof Element && event.target.closest('[data-dive]')) return;
    const box = event.currentTarget.getBoundingClientRect();
    const depthM = (event.clientY - box.top - layout.skyPx) / depth.pxPerM;
    const atMin = momentOf(time, event.clientX - box.left);
    void loadPart(() => import('./add-dive-at')).then((part) => {
      if (part.ok) part.value.addDiveAt(atMin, depthM, reader.units);
      else say({ tone: 'refused', lines: [part.troubles[0]] });
    });
  };

  return (
    <>
      <p id="strip-key-help" className="unseen">
        {KEY_HELP}
      </p>
      <svg
        className={styles.water}
        data-part="water"
        data-held={drag.live?.grip}
        width={time.widthPx}
        height={layout.skyPx + layout.waterPx}
        onPointerDown={(event) => {
          drag.onPointerDown(event);
          framing.onPointerDown(event);
        }}
        onPointerMove={(event) => {
          drag.onPointerMove(event);
          framing.onPointerMove(event);
        }}
        onPointerUp={(event) => {
          drag.onPointerUp(event);
          framing.onPointerUp(event);
        }}
        onPointerCancel={() => {
          drag.onPointerCancel();
          framing.onPointerCancel();
        }}
        onLostPointerCapture={(event) => {
          drag.onLostPointerCapture(event);
          framing.onPointerCancel();
        }}
        onDoubleClick={addHere}
      >
        <defs>
          <pattern
            id={HATCH_ID}
            width={4}
            height={4}
            patternUnits="userSpaceOnUse"
            patternTransform="rotate(45)"
          >
            <rect className={styles.hatchGround} width={4} height={4} />
            <rect className={styles.hatchLine} width={1.8} height={4} />
          </pattern>
        </defs>
        <g transform={`translate(0 ${layout.skyPx})`}>
          <Water time={time} depth={depth} heightPx={layout.waterPx} pastX={props.pastX} />
          <Lamps views={views} marks={marks} heightPx={layout.waterPx} textScale={textScale} />
          <Waterline widthPx={time.widthPx} hours={props.hours} textScale={textScale} />
          <g
            ref={list}
            role="listbox"
            aria-label="Dives"
            aria-multiselectable="true"
            aria-orientation="horizontal"
            aria-describedby="strip-key-help"
            onKeyDown={keys.onKeyDown}
            onKeyUp={keys.onKeyUp}
            onBlur={keys.onBlur}
          >
            {views.map((view, i) => (
              <DiveMark
                key={view.id}
                {...marks[i]!}
                textScale={textScale}
                id={view.id}
                interval={view.interval}
                part={view.part}
                isAbsent={view.isAbsent}
                isAsDived={view.isAsDived}
                isTightestOfTrip={view.isTightestOfTrip}
                isMissed={view.isMissed}
                isPast={view.isPast}
                name={view.name}
              />
            ))}
          </g>
          <ChosenWords source={props.source} placement={props.placement} />
          {frame && (
            <rect
              className={styles.frame}
              data-part="frame"
              x={frame.left}
              y={frame.top}
              width={frame.right - frame.left}
              height={frame.bottom - frame.top}
            />
          )}
          {liveView && liveMark && (
            <LiveFigures
              view={liveView}
              mark={liveMark}
              refusal={drag.live?.refusal ?? null}
              reader={reader}
              widthPx={time.widthPx}
              textScale={textScale}
            />
          )}
        </g>
      </svg>
      <TabStop list={list} views={views} />
    </>
  );
}
