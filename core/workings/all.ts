import type { Entry, LoopFigures } from '../ledger/ledger-types';
import { PURE_NITROGEN } from '../tissues/breathed-legs';
import { stopsWorkings } from './ascent';
import { densityWorkings, eadWorkings, modWorkings, po2Workings } from './mix';
import { earlierWorkings } from './earlier';
import { leadingWorkings, levelWorkings, noStopWorkings } from './nitrogen';
import {
  cnsAfterWorkings,
  cnsBeforeWorkings,
  cnsDayWorkings,
  esotDayWorkings,
  esotDiveWorkings,
  otuDayWorkings,
  otuDiveWorkings,
  otuTripWorkings,
} from './oxygen';
import { roomMinWorkings, roomMWorkings } from './room';
import { endWorkings, minimumWorkings, turnWorkings, usedWorkings } from './supply';
import { clearWorkings, climbsWorkings, flyWorkings, intervalWorkings, secondOpinionWorkings } from './times';
import { ALIKE, asked100, CLOCKS, clockOnLoop, isOfNitrogen, loopWorkings, nitrogenOnLoop } from './loop';
import {
  FIGURES,
  type Asked,
  type FigureId,
  type LevelFigure,
  type Work,
  type Workings,
  type WorkingsContext,
} from './types';

const WORKS: Readonly<Record<(typeof FIGURES)[number], Work>> = {
  noStopMin: noStopWorkings,
  stops: stopsWorkings,
  leading: leadingWorkings,
  'room.min': roomMinWorkings,
  'room.m': roomMWorkings,
  earlierMin: earlierWorkings,
  interval: intervalWorkings,
  modM: modWorkings,
  po2Bar: po2Workings,
  eadM: eadWorkings,
  gasDensityGL: densityWorkings,
  'cns.before': cnsBeforeWorkings,
  'cns.after': cnsAfterWorkings,
  'cns.day': cnsDayWorkings,
  'otu.dive': otuDiveWorkings,
  'otu.day': otuDayWorkings,
  'otu.trip': otuTripWorkings,
  'esot.dive': esotDiveWorkings,
  'esot.day': esotDayWorkings,
  usedL: usedWorkings,
  endBar: endWorkings,
  minimumBar: minimumWorkings,
  turnBar: turnWorkings,
  flyAfter: flyWorkings,
  climbs: climbsWorkings,
  clearAt: clearWorkings,
  secondOpinion: secondOpinionWorkings,
};

/** The figures of a dive, the limits of several levels before the whole time. */
export function figuresOf({ levels }: Entry): readonly FigureId[] {
  return levels.length < 2 ? FIGURES : [...levels.map((_, index): FigureId => `levels.${index}`), ...FIGURES];
}

function workOf(figure: FigureId): Work {
  return isLevel(figure) ? levelWorkings(Number(figure.slice('levels.'.length))) : WORKS[figure];
}

function isLevel(figure: FigureId): figure is LevelFigure {
  return figure.startsWith('levels.');
}

/**
 * How a figure of a dive comes about: its formula, the numbers put in, what comes out, the source.
 * @param figure which one @param entry the dive, from `context.diverLedger`
 * @returns for a dive that is left out, workings that say so
 * Source: each workings names its own.
 */
export function workingsOf(figure: FigureId, entry: Entry, context: WorkingsContext): Workings {
  if (entry.loop !== null) return { figure, ...onLoop(figure, { ...context, entry }, entry.loop) };
  if (!entry.isMade || entry.o2 === null) return leftOut(figure);
  return { figure, ...workOf(figure)({ ...context, entry, o2: entry.o2 }) };
}

function onLoop(figure: FigureId, asked: Omit<Asked, 'o2'>, loop: LoopFigures): Omit<Workings, 'figure'> {
  // None of them asks for a share of oxygen.
  if (ALIKE.has(figure)) return workOf(figure)({ ...asked, o2: Number.NaN });
  if (CLOCKS.has(figure)) {
    const pure = asked100(asked, loop);
    return clockOnLoop(workOf(figure)(pure), pure, loop);
  }
  if (isOfNitrogen(figure)) {
    const pure = { ...asked, o2: 1 - PURE_NITROGEN };
    return nitrogenOnLoop(workOf(figure)(pure), pure, loop);
  }
  return loopWorkings(figure, asked, loop);
}

function leftOut(figure: FigureId): Workings {
  return {
    figure,
    title: 'No figure',
    formula: 'none',
    steps: [
      { label: 'Mix', value: 'none of the trip can be used on this dive, so it is left out of every figure' },
    ],
    result: 'none',
    exact: null,
    source:
      'NOAA Diving Program (2015) for the working PO2; the rule of leaving the dive out is this project’s',
  };
}
