/** What the window and a worker of its own say to each other: types only. */

export interface Asked<Ask> {
  readonly id: number;
  readonly ask: Ask;
}

export type Reply<Answer> =
  | { readonly id: number; readonly kind: 'progress'; readonly done: number; readonly total: number }
  | { readonly id: number; readonly kind: 'answer'; readonly answer: Answer }
  | { readonly id: number; readonly kind: 'fault'; readonly message: string };

/** @param total 0 while it is not known yet */
export type Progress = (done: number, total: number) => void;
