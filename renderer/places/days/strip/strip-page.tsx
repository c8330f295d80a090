import { useLayoutEffect, useMemo, useRef, useState, type ReactNode } from 'react';
import { wallMin } from '../../../../core/words/calendar';
import { unitOf } from '../../../../core/words/quantity';
import { usePrinting } from '../../../parts/use-printing';
import { useDesk } from '../../../store/store';
import { Axis } from './axis';
import { bandPoints, bandTop, compartmentShares, stepsOf, timelineFor } from './band-data';
import { BandTitle } from './band-title';
import { NitrogenBand, OxygenBand } from './bands';
import { BandsTable } from './bands-table';
import { CrossingLines, flightBox } from './crossing-lines';
import { DayHeads, OtuRow } from './day-heads';
import { dayViews } from './day-view';
import { depthScale } from './depth-scale';
import { DiveList } from './dive-list';
import { marksOf } from './marks';
import { stripLayout } from './strip-layout';
import { StripTools } from './strip-tools';
import { momentText } from './strip-words';
import { spanOf, timeScale } from './time-scale';
import { useDiveDrag, type Frozen } from './use-dive-drag';
import { useReading } from './use-reading';
import type { Size } from '../../../parts/use-size';
import { useStripData, type StripData } from './use-strip';
import { useZoom } from './use-zoom';
import './bands.css';

const AXIS_PX = 40;
/** Beside the page, so that a weight at its very edge can be seen whole and taken hold of. */
const EDGE_PX = 8;
const TOOLS_PX = 34;
/** Narrower than this, in text of 100 %, the tools take two rows. */
const TOOLS_ROW_PX = 700;
/** A scroll bar may stand under the strip once it is wider than the window. */
const SCROLLBAR_PX = 12;
/** Baseline of the first line of a band's title, at 100 % text. */
const FIRST_LINE_PX = 19;
const DAY_MIN = 1440;
/** Drawn larger than this, a clock that hardly runs would look like one that does. */
const LEAST_OXYGEN_TOP = 0.2;
/** A day is never drawn narrower, at 100 % text: its date and its soundings could not be read. Such a trip is scrolled. */
const LEAST_DAY_PX = 36;
/** What fits at the zoom of print on A4 or Letter held upright, between the margins that browsers leave. */
const PAPER: Size = { widthPx: 850, heightPx: 660 };

export function StripPage({ size: sizeOnScreen }: { readonly size: Size }): ReactNode {
  const scroller = useRef<HTMLDivElement>(null);
  const [isTable, setIsTable] = useState(false);
  const [hasCompartments, setHasCompartments] = useState(false);
  const [frozen, setFrozen] = useState<Frozen | null>(null);
  const isPrinting = usePrinting();
  const size = isPrinting ? PAPER : sizeOnScreen;
  const textScaleOnScreen = useDesk((state) => state.settings.textScale);
  const textScale = isPrinting ? 1 : textScaleOnScreen;
  const chosenIds = useDesk((state) => state.selection.diveIds);
  const data = useStripData();
  const { flyAfterMin, flightMin } = useFlight(data);

  const span = useMemo(
    () => frozen?.span ?? spanOf(data.stretches, [flyAfterMin, flightMin], 0),
    [frozen, data.stretches, flyAfterMin, flightMin],
  );
  const zoom = useZoom(scroller, span.dayCount, EDGE_PX);
  const factor = isPrinting ? 1 : zoom.factor;
  const toolRows = size.widthPx / textScale < TOOLS_ROW_PX ? 2 : 1;
  const bodyPx = size.heightPx - toolRows * TOOLS_PX * textScale - SCROLLBAR_PX;
  const axisPx = Math.round(AXIS_PX * textScale);
  const leastPx = isPrinting ? 1 : span.dayCount * LEAST_DAY_PX * textScale;
  const pagePx = Math.floor(Math.max(size.widthPx - axisPx - 2 * EDGE_PX, leastPx) * factor);
  const time = useMemo(() => timeScale(span, data.stretches, pagePx), [span, data.stretches, pagePx]);
  const { onDrawn } = zoom;
  useLayoutEffect(() => onDrawn(time));
  const layout = useMemo(() => stripLayout(bodyPx, textScale), [bodyPx, textScale]);
  const deepestM = Math.max(...data.views.map((view) => view.depthM), frozen?.deepestM ?? 0);
  const depth = useMemo(
    () => depthScale(deepestM, layout.waterPx, data.reader.units),
    [deepestM, layout.waterPx, data.reader.units],
  );
  const chosen = useMemo(() => new Set(chosenIds), [chosenIds]);
  const flightText = flightMin === null ? '' : `flight ${momentText(flightMin, data.reader)}`;
  const marks = useMemo(() => {
    const flight = flightBox(time, flightMin, flightText, textScale);
    const written = flight === null ? [] : [flight];
    return marksOf(data.views, time, depth, layout.waterPx, textScale, chosen, written);
  }, [data.views, time, depth, layout.waterPx, textScale, chosen, flightMin, flightText]);
  const days = useMemo(() => dayViews(span, data.divers, data.views), [span, data.divers, data.views]);
  const drag = useDiveDrag({ views: data.views, stretches: data.stretches, time, depth }, setFrozen);
  const diverIsChosen = useDesk((state) => state.selection.diverId !== null);
  const shownName = data.shown?.diver.name ?? '';
  const whose = diverIsChosen ? shownName : `${shownName} (least room)`;
  const carried = useCarried(data, time, hasCompartments);
  const reading = useReading(carried.drawn);
  const band = {
    points: carried.drawn.points,
    widthPx: time.widthPx,
    given: reading.given,
    isRead: reading.isRead,
  };
  const waterBottomY = layout.headPx + layout.intervalPx + layout.waterPx;

  return (
    <>
      <div className="strip-body">
        <Axis
          depth={depth}
          layout={layout}
          widthPx={axisPx}
          nitrogenTop={carried.nitrogenTop}
          oxygenTop={carried.oxygenTop}
          unit={unitOf('depth', data.reader.units).sign}
          textScale={textScale}
          hasBands={!isTable}
        />
        <div className="strip-scroll" ref={scroller}>
          <div className="strip-content" style={{ width: pagePx, marginInline: EDGE_PX }}>
            <DayHeads
              days={days}
              dayWidthPx={time.dayWidthPx}
              heightPx={layout.headPx}
              textScale={textScale}
              dives={data.views}
            />
            <DiveList
              views={data.views}
              marks={marks}
              chosen={chosen}
              time={time}
              depth={depth}
              layout={layout}
              zoom={zoom}
              drag={drag}
              reader={data.reader}
              textScale={textScale}
            />
            {!isTable && (
              <div
                onPointerMove={reading.ask}
                onPointerLeave={reading.leave}
                onFocus={reading.ask}
                onKeyDown={reading.ask}
                onBlur={reading.leave}
              >
                <BandTitle heightPx={layout.titlePx} title="Nitrogen on surfacing">
                  {`if ${whose} went straight up at that moment`}
                </BandTitle>
                <NitrogenBand
                  {...band}
                  shares={carried.drawn.shares}
                  heightPx={layout.nitrogenPx}
                  top={carried.nitrogenTop}
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
            <CrossingLines
              time={time}
              heightPx={isTable ? waterBottomY : layout.totalPx}
              fromY={layout.headPx + layout.intervalPx}
              textY={isTable ? waterBottomY - 25 : waterBottomY + FIRST_LINE_PX * textScale}
              textScale={textScale}
              flyAfterMin={flyAfterMin}
              flightMin={flightMin}
              flyText={flyAfterMin === null ? '' : `no flying before ${momentText(flyAfterMin, data.reader)}`}
              flightText={flightText}
            />
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
      <StripTools
        zoom={zoom}
        isTable={isTable}
        onTable={setIsTable}
        hasCompartments={hasCompartments}
        onCompartments={setHasCompartments}
      />
    </>
  );
}

/** The latest of the divers shown: who flies together waits for the last. */
function useFlight(data: StripData): {
  readonly flyAfterMin: number | null;
  readonly flightMin: number | null;
} {
  const flight = useDesk((state) => state.trip.flight);
  return useMemo(() => {
    const known = data.divers.flatMap((each) => each.flyAfterMin ?? []);
    return {
      flyAfterMin: known.length === 0 ? null : Math.max(...known),
      flightMin: flight === null ? null : wallMin(flight.at),
    };
  }, [data.divers, flight]);
}

/** What the bands draw of the diver shown. */
function useCarried(data: StripData, time: ReturnType<typeof timeScale>, hasCompartments: boolean) {
  const trip = useDesk((state) => state.trip);
  const { shown } = data;
  const pageEndMin = (time.firstDay + time.dayCount) * DAY_MIN;
  const timeline = useMemo(
    () => (shown === null ? [] : timelineFor(trip, shown, pageEndMin, stepsOf(time))),
    [trip, shown, pageEndMin, time],
  );
  const points = useMemo(() => bandPoints(timeline, time), [timeline, time]);
  const shares = useMemo(
    () => (hasCompartments && shown !== null ? compartmentShares(trip, shown, timeline) : null),
    [hasCompartments, trip, shown, timeline],
  );
  const tops = useMemo(
    () => ({
      nitrogenTop: bandTop(Math.max(0, ...points.map((point) => point.share)), 1.1),
      oxygenTop: bandTop(
        Math.max(0, ...points.map((point) => Math.max(point.cns ?? 0, point.cnsDay ?? 0))),
        LEAST_OXYGEN_TOP,
      ),
    }),
    [points],
  );
  const drawn = useMemo(() => ({ points, shares }), [points, shares]);
  return { timeline, drawn, ...tops };
}
