/** The page of the strip: which days, how wide and deep, and where everything of them stands. */
import { useLayoutEffect, useMemo, type RefObject } from 'react';
import { usePrinting } from '../../../parts/use-printing';
import { useTypeScale } from '../../../parts/type-scale';
import type { Size } from '../../../parts/use-size';
import { wallMin } from '../../../../core/words/calendar';
import { useDesk } from '../../../store/store';
import { boardDays, boardRows } from './board-view';
import { dayViews } from './day-view';
import { depthScale } from './depth-scale';
import { hourBoxes, hourMarks } from './hours';
import { marksOf, placementOf } from './marks';
import { stripForm } from './strip-form';
import { labelRoomPx, stripLayout } from './strip-layout';
import { spanOf, timeScale, placeOf } from './time-scale';
import type { Frozen } from './use-dive-drag';
import type { Flight } from './use-flight';
import type { StripData } from './use-strip';
import { useZoom } from './use-zoom';

const DAY_MIN = 1440;
const AXIS_PX = 44;
/** Beside the page, so that a weight at its very edge can be seen whole and taken hold of. */
export const EDGE_PX = 8;
const TOOLS_PX = 34;
/** Narrower than this, in text of 100 %, the tools take two rows. */
const TOOLS_ROW_PX = 840;
/** A scroll bar may stand under the strip once it is wider than the window. */
const SCROLLBAR_PX = 12;
/** A day is never drawn narrower, at 100 % text: its date and its soundings could not be read. Such a trip is scrolled. */
const LEAST_DAY_PX = 44;
/** What fits at the zoom of print on A4 or Letter held upright, between the margins that browsers leave. */
const PAPER: Size = { widthPx: 850, heightPx: 660 };

interface PageSource {
  readonly scroller: RefObject<HTMLElement | null>;
  readonly sizeOnScreen: Size;
  readonly data: StripData;
  readonly frozen: Frozen | null;
  readonly flight: Flight;
}

export type Page = ReturnType<typeof usePage>;

export function usePage({ scroller, sizeOnScreen, data, frozen, flight }: PageSource) {
  const isPrinting = usePrinting();
  const size = isPrinting ? PAPER : sizeOnScreen;
  const scaleOnScreen = useTypeScale();
  const textScale = isPrinting ? 1 : scaleOnScreen;
  const { views, stretches, reader, divers } = data;
  const { flyAfterMin, flightMin } = flight;
  const events = useDesk(({ trip }) => trip.events);
  const span = useMemo(
    () =>
      frozen?.span ??
      spanOf(stretches, [flyAfterMin, flightMin, ...(events ?? []).map(({ to }) => wallMin(to))], 0),
    [frozen, stretches, flyAfterMin, flightMin, events],
  );
  const zoom = useZoom(scroller, span.dayCount, EDGE_PX);
  const factor = isPrinting ? 1 : zoom.factor;
  const toolRows = size.widthPx / textScale < TOOLS_ROW_PX ? 2 : 1;
  const bodyPx = size.heightPx - toolRows * TOOLS_PX * textScale - SCROLLBAR_PX;
  const axisPx = Math.round(AXIS_PX * textScale);
  const leastPx = isPrinting ? 1 : span.dayCount * LEAST_DAY_PX * textScale;
  const pagePx = Math.floor(Math.max(size.widthPx - axisPx - 2 * EDGE_PX, leastPx) * factor);
  const time = useMemo(() => timeScale(span, stretches, pagePx), [span, stretches, pagePx]);
  const { onDrawn } = zoom;
  useLayoutEffect(() => onDrawn(time));

  // To the day: what depends on it is not worked out anew at every minute.
  const todayMin = useDesk(({ nowMin }) => (nowMin === null ? null : Math.floor(nowMin / DAY_MIN) * DAY_MIN));
  const form = stripForm(time.dayWidthPx, textScale);
  const days = useMemo(() => dayViews(span, divers, views), [span, divers, views]);
  const board = useMemo(
    () =>
      boardDays({
        days,
        views,
        form,
        dayWidthPx: time.dayWidthPx / textScale,
        flyAfterMin,
        flightMin,
        todayMin,
        reader,
      }),
    [days, views, form, time.dayWidthPx, textScale, flyAfterMin, flightMin, todayMin, reader],
  );
  const rows = boardRows(board, form);
  const layout = useMemo(() => stripLayout(bodyPx, textScale, rows, form), [bodyPx, textScale, rows, form]);
  const deepestM = Math.max(...views.map((view) => view.depthM), frozen?.deepestM ?? 0);
  const labelPx = labelRoomPx(form) * textScale;
  const depth = useMemo(
    () => depthScale(deepestM, layout.waterPx, reader.units, labelPx),
    [deepestM, layout.waterPx, reader.units, labelPx],
  );
  const hours = useMemo(
    () =>
      hourMarks(
        time,
        textScale,
        reader.clock,
        views.map((view) => placeOf(time, view.startMin)),
      ),
    [time, textScale, reader.clock, views],
  );
  const written = useMemo(() => hourBoxes(hours, textScale), [hours, textScale]);
  const source = useMemo(
    () => ({ views, time, depth, heightPx: layout.waterPx, textScale, written }),
    [views, time, depth, layout.waterPx, textScale, written],
  );
  const placement = useMemo(() => placementOf(source), [source]);
  const marks = useMemo(() => marksOf(source, placement), [source, placement]);
  return {
    size,
    textScale,
    zoom,
    axisPx,
    pagePx,
    time,
    form,
    days,
    board,
    layout,
    depth,
    hours,
    source,
    placement,
    marks,
  };
}
