/**
 * The strip's axis and page, and the bands on it. An edit draws the bands a frame after dives and figures, so what else
 * stands on the page is handed in: it stays as it is for that frame.
 */
import { useMemo, type ReactNode, type RefObject } from 'react';
import type { Trip } from '../../../../core/document/types';
import type { DiverLedger } from '../../../../core/ledger/ledger-types';
import { unitOf } from '../../../../core/words/quantity';
import { useFrameLater } from '../../../parts/frame-later';
import { lazily, WITHOUT } from '../../../parts/lazily';
import { useDesk } from '../../../store/store';
import { isInCard } from '../in-card';
import { STAND_IN } from '../stand-in';
import { Axis } from './axis';
import { bandPoints, bandTop, compartmentShares, stepsOf, timelineFor } from './band-data';
import { BandTitle } from './band-title';
import { NitrogenBand, OxygenBand } from './bands';
import { OtuRow } from './otu-row';
import styles from './strip.module.css';
import type { TimeScale } from './time-scale';
import { EDGE_PX, type Page } from './use-page';
import { useReading } from './use-reading';
import type { StripData } from './use-strip';

/** The nitrogen a proposal would leave, while it is looked at. */
const ProposedCurve = lazily(
  () => import('./proposed-curve'),
  (part) => part.ProposedCurve,
  WITHOUT,
);

/** The bands as figures, which are asked for now and then. */
const BandsTable = lazily(
  () => import('./bands-table'),
  (part) => part.BandsTable,
  STAND_IN,
);

/** Drawn where it is asked how sturdy the plan is; the sheet that asks for it has the same in figures. */
const SturdyBand = lazily(
  () => import('./sturdy-band'),
  (part) => part.SturdyBand,
  WITHOUT,
);

const DAY_MIN = 1440;
/** Drawn larger than this, a clock that hardly runs would look like one that does. */
const LEAST_OXYGEN_TOP = 0.2;
/** Where a day fills the page, words stand above the limit. */
const ROOM_FOR_WORDS_TOP = 1.24;

interface StripBodyProps {
  readonly data: StripData;
  readonly page: Page;
  readonly scroller: RefObject<HTMLDivElement | null>;
  /** Figures stand in the place of the bands. */
  readonly isTable: boolean;
  readonly hasCompartments: boolean;
  /** A dive is in the hand: the bands are drawn with it. */
  readonly isHeld: boolean;
  /** What stands above the bands: the board and the water. */
  readonly above: ReactNode;
  /** What is drawn across all of it. */
  readonly over: ReactNode;
}

export function StripBody(props: StripBodyProps): ReactNode {
  const { data, page, scroller, isTable, hasCompartments, above, over } = props;
  const { time, layout, textScale, days } = page;
  const isDay = page.form === 'day';
  const whose = useWhose(data);
  // With the hand in the card the strip is a frame later by itself.
  const ofBands = useOfBands(data, time, isTable || props.isHeld || isInCard());
  const { shown } = ofBands;
  const carried = useCarried(ofBands, hasCompartments, isDay);
  const reading = useReading(carried.drawn);
  const proposed = useDesk((state) => state.proposed);
  const hasRuns = useDesk((state) => state.hasSturdyBand);
  const band = {
    points: carried.drawn.points,
    widthPx: time.widthPx,
    given: reading.given,
    isRead: reading.isRead,
  };
  const scale = { heightPx: layout.nitrogenPx, top: carried.nitrogenTop };

  return (
    <>
      <div className={styles.body}>
        <Axis
          depth={page.depth}
          layout={layout}
          widthPx={page.axisPx}
          nitrogenTop={carried.nitrogenTop}
          oxygenTop={carried.oxygenTop}
          unit={unitOf('depth', data.reader.units).sign}
          textScale={textScale}
          hasBands={!isTable}
        />
        <div className={styles.scroll} data-part="scroller" ref={scroller}>
          <div
            className={styles.content}
            data-part="page"
            style={{ width: page.pagePx, marginInline: EDGE_PX }}
          >
            {above}
            {!isTable && (
              <div
                onPointerMove={reading.ask}
                onPointerLeave={reading.leave}
                onFocus={reading.ask}
                onKeyDown={reading.ask}
                onBlur={reading.leave}
              >
                <BandTitle heightPx={layout.titlePx} title="Nitrogen on surfacing">
                  {`if ${whose} went straight up at that moment${proposed ? '; dashed, as proposed' : ''}${hasRuns ? '; about it 90 of 100 runs: the plan’s limits, never the chance of injury' : ''}`}
                </BandTitle>
                <NitrogenBand
                  {...band}
                  shares={carried.drawn.shares}
                  {...scale}
                  stays={isDay && shown}
                  time={ofBands.time}
                  about={
                    shown && (
                      <>
                        {hasRuns && (
                          <SturdyBand
                            {...scale}
                            diverId={shown.diver.id}
                            time={ofBands.time}
                            untilMin={carried.timeline.at(-1)?.atMin ?? 0}
                          />
                        )}
                        {proposed && (
                          <ProposedCurve
                            {...scale}
                            proposed={proposed}
                            diverId={shown.diver.id}
                            now={carried.timeline}
                            time={ofBands.time}
                          />
                        )}
                      </>
                    )
                  }
                />
                <BandTitle heightPx={layout.titlePx} title="Oxygen clock">
                  CNS; dashed, over 24 h; bars, each day’s OTU of its allowance
                </BandTitle>
                <OxygenBand {...band} heightPx={layout.oxygenPx} top={carried.oxygenTop} />
                <OtuRow
                  days={days}
                  dayWidthPx={time.dayWidthPx}
                  heightPx={layout.otuPx}
                  textScale={textScale}
                />
              </div>
            )}
            {over}
          </div>
        </div>
      </div>
      {isTable && (
        <BandsTable
          timeline={carried.timeline}
          shares={carried.drawn.shares}
          dives={data.views}
          days={days}
          diverName={data.shown?.diver.name ?? ''}
          reader={data.reader}
        />
      )}
    </>
  );
}

/** Whose curves they are. */
function useWhose({ shown }: StripData): string {
  const diverIsChosen = useDesk((state) => state.selection.diverId !== null);
  const name = shown?.diver.name ?? '';
  return diverIsChosen ? name : `${name} (least room)`;
}

/** What the bands are drawn of. */
interface OfBands {
  readonly trip: Trip;
  readonly shown: DiverLedger | null;
  readonly time: TimeScale;
}

/**
 * An edit draws the bands a frame after dives and figures; another page or diver is drawn whole, and so is what a hand
 * drags, which has an edit in every frame.
 */
function useOfBands({ shown }: StripData, time: TimeScale, isAtOnce: boolean): OfBands {
  const trip = useDesk((state) => state.trip);
  const now = useMemo(() => ({ trip, shown, time }), [trip, shown, time]);
  const { widthPx, firstDay, dayCount } = time;
  return useFrameLater(now, isAtOnce ? null : `${widthPx} ${firstDay} ${dayCount} ${shown?.diver.id}`);
}

/** What the bands draw of the diver shown. */
function useCarried({ trip, shown, time }: OfBands, hasCompartments: boolean, isDay: boolean) {
  const pageEndMin = (time.firstDay + time.dayCount) * DAY_MIN;
  const timeline = useMemo(
    () => (shown === null ? [] : timelineFor(trip, shown, pageEndMin, stepsOf(time))),
    [trip, shown, pageEndMin, time],
  );
  const points = useMemo(() => bandPoints(timeline, time), [timeline, time]);
  const shares = useMemo(
    () => (hasCompartments && shown !== null ? compartmentShares(timeline) : null),
    [hasCompartments, shown, timeline],
  );
  const tops = useMemo(
    () => ({
      nitrogenTop: bandTop(
        Math.max(0, ...points.map((point) => point.share)),
        isDay ? ROOM_FOR_WORDS_TOP : 1.1,
      ),
      oxygenTop: bandTop(
        Math.max(0, ...points.map((point) => Math.max(point.cns ?? 0, point.cnsDay ?? 0))),
        LEAST_OXYGEN_TOP,
      ),
    }),
    [points, isDay],
  );
  const drawn = useMemo(() => ({ points, shares }), [points, shares]);
  return { timeline, drawn, ...tops };
}
