/** What is chosen for an exercise sheet: kept while the window is open, of no trip. */
import { useStore } from 'zustand';
import { createStore } from 'zustand/vanilla';
import { USUAL_SHEET, type SheetRequest } from '../../../core/lesson/sheet';

/** The papers a sheet fits on. */
export type SheetPaper = 'A4' | 'letter';

export interface LessonChoices extends Omit<SheetRequest, 'units'> {
  /** null: the one that goes with the units of the window. */
  readonly paper: SheetPaper | null;
}

const { seed, level, questions } = USUAL_SHEET;

const choices = createStore<LessonChoices>()(() => ({ seed, level, questions, paper: null }));

export function useLesson(): LessonChoices {
  return useStore(choices);
}

export function chooseLesson(patch: Partial<LessonChoices>): void {
  choices.setState(patch);
}
