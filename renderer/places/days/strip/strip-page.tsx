import { useMemo, useRef, useState, type ReactNode } from 'react';
import { timeAt } from '../../../../core/words/calendar';
import { said } from '../../../../core/words/said';
import { lazily, WITHOUT } from '../../../parts/lazily';
import { useWords } from '../../../parts/use-words';
import { selectAhead, selectDoneUntil } from '../../../store/clock';
import type { Size } from '../../../parts/use-size';
import { useDesk } from '../../../store/store';
import { Board } from './board';
import { CrossingLines, Elbow } from './crossing-lines';
import { DiveList } from './dive-list';
import { aheadFromMin, commonMix } from './dive-view';
import { StripBody } from './strip-body';
import { StripTools } from './strip-tools';
import { placeOf } from './time-scale';
import { useDiveDrag, type Frozen } from './use-dive-drag';
import { useFlight } from './use-flight';
import { usePage } from './use-page';
import { useStripData } from './use-strip';

/** Drawn while a proposal is looked at; the sheet beside it says what the proposal changes. */
const ProposedGhosts = lazily(
  () => import('./proposed-ghosts'),
  (part) => part.ProposedGhosts,
  WITHOUT,
);

/** Drawn where the trip has stays at other heights. */
const Heights = lazily(
  () => import('./heights'),
  (part) => part.Heights,
  WITHOUT,
);

export function StripPage({ size }: { readonly size: Size }): ReactNode {
  const scroller = useRef<HTMLDivElement>(null);
  const [isTable, setIsTable] = useState(false);
  const [hasCompartments, setHasCompartments] = useState(false);
  const [frozen, setFrozen] = useState<Frozen | null>(null);
  const data = useStripData();
  const { views, reader } = data;
  const flight = useFlight(data);
  const page = usePage({ scroller, sizeOnScreen: size, data, frozen, flight });
  const { time, depth, layout, textScale, days } = page;
  const drag = useDiveDrag({ views, stretches: data.stretches, time, depth }, setFrozen);
  const words = useWords();
  const proposed = useDesk((state) => state.proposed);
  const events = useDesk(({ trip }) => trip.events);
  const nowMin = useDesk((state) => state.nowMin);
  const doneUntilMin = useDesk(selectDoneUntil);
  const ahead = useDesk(selectAhead);
  const aheadMin = ahead.size === views.length ? null : aheadFromMin(views, ahead);
  const mix = useMemo(() => commonMix(views), [views]);
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
      <StripBody
        data={data}
        page={page}
        scroller={scroller}
        isTable={isTable}
        hasCompartments={hasCompartments}
        isHeld={frozen !== null}
        above={
          <>
            <Board
              days={days}
              board={page.board}
              form={page.form}
              dayWidthPx={time.dayWidthPx}
              heightPx={layout.boardPx}
              goToDay={page.zoom.day}
            />
            <DiveList
              views={views}
              marks={page.marks}
              source={page.source}
              placement={page.placement}
              time={time}
              depth={depth}
              layout={layout}
              zoom={page.zoom}
              drag={drag}
              reader={reader}
              textScale={textScale}
              hours={page.hours}
              pastX={doneUntilMin === null ? null : placeOf(time, doneUntilMin)}
            />
          </>
        }
        over={
          <>
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
            <Elbow
              views={views}
              marks={page.marks}
              board={page.board}
              time={time}
              waterlineY={waterlineY}
              textScale={textScale}
            />
          </>
        }
      />
      <StripTools
        zoom={page.zoom}
        isTable={isTable}
        onTable={setIsTable}
        hasCompartments={hasCompartments}
        onCompartments={setHasCompartments}
        commonMix={mix}
        aheadMin={aheadMin}
        views={views}
      />
    </>
  );
}
