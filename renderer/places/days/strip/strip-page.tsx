import { useMemo, useRef, useState, type ReactNode } from 'react';
import type { Trip } from '../../../../core/document/types';
import type { DiverLedger } from '../../../../core/ledger/ledger-types';
import { timeAt } from '../../../../core/words/calendar';
import { said } from '../../../../core/words/said';
import { useFrameLater } from '../../../parts/frame-later';
import { lazily } from '../../../parts/lazily';
import { useWords } from '../../../parts/use-words';
import { selectAhead, selectDoneUntil } from '../../../store/clock';
import { unitOf } from '../../../../core/words/quantity';
import type { Size } from '../../../parts/use-size';
import { useDesk } from '../../../store/store';
import { STAND_IN } from '../stand-in';
import { Axis } from './axis';
import { bandPoints, bandTop, compartmentShares, stepsOf, timelineFor } from './band-data';
import { BandTitle } from './band-title';
import { NitrogenBand, OxygenBand } from './bands';
import { Board } from './board';
import { CrossingLines, Elbow } from './crossing-lines';
import { DiveList } from './dive-list';
import { aheadFromMin, commonMix } from './dive-view';
import { OtuRow } from './otu-row';
import styles from './strip.module.css';
import { StripTools } from './strip-tools';
import { placeOf, type TimeScale } from './time-scale';
import { useDiveDrag, type Frozen } from './use-dive-drag';
import { useFlight } from './use-flight';
import { EDGE_PX, usePage } from './use-page';
import { useReading } from './use-reading';
import { useStripData, type StripData } from './use-strip';

/** Drawn while a proposal is looked at. */
const ProposedGhosts = lazily(async () => (await import('./proposed-ghosts')).ProposedGhosts, {
  waiting: null,
  // The sheet beside it says what the proposal changes.
  failed: () => null,
});

/** The nitrogen a proposal would leave, while it is looked at. */
const ProposedCurve = lazily(async () => (await import('./proposed-curve')).ProposedCurve, {
  waiting: null,
  failed: () => null,
});

/** The bands as figures, which are asked for now and then. */
const BandsTable = lazily(async () => (await import('./bands-table')).BandsTable, STAND_IN);

/** Drawn where it is asked how sturdy the plan is. */
const SturdyBand = lazily(async () => (await import('./sturdy-band')).SturdyBand, {
  waiting: null,
  // The sheet that asks for it has the same in figures.
  failed: () => null,
});

/** Drawn where the trip has stays at other heights. */
const Heights = lazily(async () => (await import('./heights')).Heights, {
  waiting: null,
  failed: () => null,
});

const DAY_MIN = 1440;
/** Drawn larger than this, a clock that hardly runs would look like one that does. */
const LEAST_OXYGEN_TOP = 0.2;
/** Where a day fills the page, words stand above the limit. */
const ROOM_FOR_WORDS_TOP = 1.24;

export function StripPage({ size }: { readonly size: Size }): ReactNode {
  const scroller = useRef<HTMLDivElement>(null);
  const [isTable, setIsTable] = useState(false);
  const [hasCompartments, setHasCompartments] = useState(false);
  const [frozen, setFrozen] = useState<Frozen | null>(null);
  const data = useStripData();
  const { views, reader } = data;
  const flight = useFlight(data);
  const page = usePage({ scroller, sizeOnScreen: size, data, frozen, flight });
  const { time, depth, layout, textScale, chosen, days, elbow } = page;
  const drag = useDiveDrag({ views, stretches: data.stretches, time, depth }, setFrozen);
  const isDay = page.form === 'day';
  const whose = useWhose(data);
  const ofBands = useOfBands(data, time, isTable || frozen !== null);
  const { shown } = ofBands;
  const carried = useCarried(ofBands, hasCompartments, isDay);
  const reading = useReading(carried.drawn);
  const words = useWords();
  const proposed = useDesk((state) => state.proposed);
  const events = useDesk(({ trip }) => trip.events);
  const hasRuns = useDesk((state) => state.hasSturdyBand);
  const nowMin = useDesk((state) => state.nowMin);
  const doneUntilMin = useDesk(selectDoneUntil);
  const ahead = useDesk(selectAhead);
  const aheadMin = ahead.size === views.length ? null : aheadFromMin(views, ahead);
  const mix = useMemo(() => commonMix(views), [views]);
  const band = {
    points: carried.drawn.points,
    widthPx: time.widthPx,
    given: reading.given,
    isRead: reading.isRead,
  };
  const scale = { heightPx: layout.nitrogenPx, top: carried.nitrogenTop };
  const waterlineY = layout.boardPx + layout.skyPx;
  const stretches = useMemo(() => {
    const water = { fromY: waterlineY, untilY: waterlineY + layout.waterPx };
    const nitrogenY = water.untilY + layout.titlePx;
    const oxygenY = nitrogenY + layout.nitrogenPx + layout.titlePx;
    return isTable
      ? [water]
      : [
          water,
          { fromY: nitrogenY, untilY: nitrogenY + layout.nitrogenPx },
          { fromY: oxygenY, untilY: oxygenY + layout.oxygenPx + layout.otuPx },
        ];
  }, [waterlineY, layout, isTable]);

  return (
    <>
      <div className={styles.body}>
        <Axis
          depth={depth}
          layout={layout}
          widthPx={page.axisPx}
          nitrogenTop={carried.nitrogenTop}
          oxygenTop={carried.oxygenTop}
          unit={unitOf('depth', reader.units).sign}
          textScale={textScale}
          hasBands={!isTable}
        />
        <div className={styles.scroll} data-part="scroller" ref={scroller}>
          <div
            className={styles.content}
            data-part="page"
            style={{ width: page.pagePx, marginInline: EDGE_PX }}
          >
            <Board
              days={days}
              board={page.board}
              form={page.form}
              dayWidthPx={time.dayWidthPx}
              heightPx={layout.boardPx}
              chosen={chosen}
              goToDay={page.zoom.day}
            />
            <DiveList
              views={views}
              marks={page.marks}
              chosenWords={page.chosenWords}
              chosen={chosen}
              time={time}
              depth={depth}
              layout={layout}
              zoom={page.zoom}
              drag={drag}
              reader={reader}
              textScale={textScale}
              hours={page.hours}
              lit={page.lit}
              pastX={doneUntilMin === null ? null : placeOf(time, doneUntilMin)}
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
            {events && (
              <Heights
                events={events}
                time={time}
                heightPx={layout.totalPx}
                stretches={stretches}
                textScale={textScale}
              />
            )}
            <CrossingLines
              time={time}
              heightPx={isTable ? waterlineY + layout.waterPx : layout.totalPx}
              waterlineY={waterlineY}
              stretches={stretches}
              textScale={textScale}
              lastSurfacingMin={flight.lastSurfacingMin}
              flyAfterMin={flight.flyAfterMin}
              flightMin={flight.flightMin}
              nowMin={nowMin}
              nowText={nowMin === null ? '' : words(said`Now ${timeAt(nowMin)}`)}
            />
            {proposed && (
              <ProposedGhosts
                proposed={proposed}
                time={time}
                depth={depth}
                waterlineY={waterlineY}
                heightPx={layout.waterPx}
                textScale={textScale}
              />
            )}
            {elbow && (
              <Elbow {...elbow} waterlineY={waterlineY} textScale={textScale} widthPx={time.widthPx} />
            )}
          </div>
        </div>
      </div>
      {isTable && (
        <BandsTable
          timeline={carried.timeline}
          shares={carried.drawn.shares}
          dives={views}
          days={days}
          diverName={data.shown?.diver.name ?? ''}
          reader={reader}
        />
      )}
      <StripTools
        zoom={page.zoom}
        isTable={isTable}
        onTable={setIsTable}
        hasCompartments={hasCompartments}
        onCompartments={setHasCompartments}
        commonMix={mix}
        aheadMin={aheadMin}
        dayMin={(views.find(({ id }) => chosen.has(id)) ?? views[0])?.startMin ?? 0}
      />
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
