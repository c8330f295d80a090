/** A sheet of exercises: which are asked, in which order. */
import { failures, success, type Result, type Trouble } from '../result';
import type { System } from '../words/quantity';
import { said, type Said } from '../words/said';
import { LARGEST_SEED, lotsFrom } from './drawing-lots';
import { EXERCISE_KINDS, rulerOf, type Exercise, type ExerciseKind, type Ruler } from './exercise';
import { singleExercises } from './single-dive';
import { cnsExercises, residualExercises, type Drawn } from './two-dives';

/** How far a class has come. Source: choice of this project. */
export const LEVELS = [1, 2, 3] as const;

export type Level = (typeof LEVELS)[number];

/** What is asked on each level, from the first step on. */
const KINDS_OF: Readonly<Record<Level, readonly ExerciseKind[]>> = {
  1: ['pressure', 'po2', 'mod'],
  2: ['pressure', 'po2', 'mod', 'ead', 'richest'],
  3: EXERCISE_KINDS,
};

/** What a level is called. Source: as `LEVELS`. */
export const LEVEL_NAMES: Readonly<Record<Level, Said>> = {
  1: said`pressure and oxygen`,
  2: said`EAD and choice of mix too`,
  3: said`two dives too`,
};

/** Questions on one sheet. Source: choice of this project; of whole feet there are no more of some kinds. */
export const MOST_QUESTIONS = 20;

/** What a sheet is made from; the same always makes the same sheet. */
export interface SheetRequest {
  readonly seed: number;
  readonly level: Level;
  readonly questions: number;
  readonly units: System;
}

/** Asked where nothing else is said. Source: choice of this project. */
export const USUAL_SHEET: SheetRequest = { seed: 1, level: 3, questions: 10, units: 'metric' };

export interface Sheet extends SheetRequest {
  readonly exercises: readonly Exercise[];
}

export type SheetTroubleKind = 'seed' | 'level' | 'questions';

/** Whether each number lies where it may. */
function troublesOf({ seed, level, questions }: SheetRequest): readonly Trouble<SheetTroubleKind>[] {
  const whole = (kind: SheetTroubleKind, value: number, most: number): readonly Trouble<SheetTroubleKind>[] =>
    Number.isInteger(value) && value >= 1 && value <= most
      ? []
      : [
          {
            kind,
            what: `${Number.isNaN(value) ? 'That' : String(value)} is no whole number from 1 to ${most}.`,
            where: kind,
            mend: 'Type one that is.',
          },
        ];
  return [
    ...whole('seed', seed, LARGEST_SEED),
    ...whole('level', level, LEVELS.length),
    ...whole('questions', questions, MOST_QUESTIONS),
  ];
}

/** Exercises of a kind, drawn one by one. */
function exercisesOf(kind: ExerciseKind, ruler: Ruler, isEasy: boolean): Drawn {
  if (kind === 'cns') return cnsExercises(ruler);
  if (kind === 'residual') return residualExercises(ruler);
  const all = singleExercises(kind, ruler, isEasy);
  return (draw) => draw(all);
}

/** How many of each kind: as even as they go, more of the earlier steps. */
function countOf(at: number, kinds: number, questions: number): number {
  return Math.floor(questions / kinds) + (at < questions % kinds ? 1 : 0);
}

/**
 * Draws the exercises of a sheet, none of them twice.
 * @returns as many as asked, kind by kind in order of the lessons; trouble where seed, level or count are out of range
 * Source: numbers by `lotsFrom`; formulas as named by each kind.
 */
export function exerciseSheet(request: SheetRequest): Result<Sheet, SheetTroubleKind> {
  const troubles = troublesOf(request);
  if (troubles.length > 0) return failures(troubles);
  const { seed, level, questions, units } = request;
  const draw = lotsFrom(seed);
  const ruler = rulerOf(units);
  const kinds = KINDS_OF[level];
  const exercises: Exercise[] = [];
  const taken = new Set<string>();
  for (const [at, kind] of kinds.entries()) {
    const drawn = exercisesOf(kind, ruler, level === 1);
    for (let left = countOf(at, kinds.length, questions); left > 0;) {
      const exercise = drawn(draw);
      const key = `${kind} ${JSON.stringify(exercise.given)}`;
      if (taken.has(key)) continue;
      taken.add(key);
      exercises.push(exercise);
      left -= 1;
    }
  }
  return success({ ...request, exercises });
}
