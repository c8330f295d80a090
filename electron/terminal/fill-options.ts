/** The options of `mixes` about how cylinders are filled. */
import { USUAL_BOTTLES, type OxygenBottle } from '../../core/mixes/blending';
import { USUAL_STARTS_BAR, type FillMethod } from '../../core/mixes/fills';
import type { Trouble } from '../../core/result';
import type { GasLaw } from '../../core/supply';
import type { OptionGroup } from './option-table';

/** How the fills are made, as asked for. */
export interface FillAsked {
  readonly method: FillMethod;
  /** null: that of the trip. */
  readonly law: GasLaw | null;
  readonly startBar: number;
  /** Whether it was asked for, and not the usual one. */
  readonly isStartGiven: boolean;
  readonly startO2: number | null;
  readonly bottle: OxygenBottle;
}

const METHODS: readonly FillMethod[] = ['banked', 'partial-pressure', 'continuous', 'membrane'];
const LAWS: readonly GasLaw[] = ['ideal', 'real'];

export const FILL_GROUP = {
  heading: 'For the fills:',
  rows: [
    {
      name: 'fill',
      value: 'METHOD',
      example: `one of ${METHODS.join(', ')}`,
      completed: METHODS,
      help: 'banked (default), partial-pressure (oxygen, then air), continuous or membrane',
    },
    {
      name: 'law',
      value: 'LAW',
      example: 'ideal or real',
      completed: LAWS,
      help: 'ideal, or real with compressibility at 20 °C; the trip’s own without it',
    },
    {
      name: 'back',
      value: 'BAR',
      example: 'a pressure in bar, as in --back 50',
      help: 'pressure that cylinders come back with, in bar; 50 without it',
    },
    {
      name: 'left',
      value: 'PERCENT',
      needs: 'fill',
      example: 'a percent, as in --left 32',
      help: 'oxygen of what is left in them, for --fill partial-pressure; without it the mix they get again',
    },
    {
      name: 'bottle',
      value: 'LxBAR',
      example: 'litres of water and bar, as in --bottle 50x200',
      help: 'bottle that oxygen comes in, litres of water and bar; 50x200 without it',
    },
  ],
  alone: {
    what: 'It is about filling by partial pressure, which is not asked for.',
    mend: 'Give --fill partial-pressure too.',
  },
} as const satisfies OptionGroup;

type Values = { readonly [Name in (typeof FILL_GROUP)['rows'][number]['name']]?: string };

function number(text: string): number {
  return text.trim() === '' ? Number.NaN : Number(text);
}

/**
 * Reads how cylinders are filled; start pressures are judged by the fills themselves.
 * @param values as typed @param troubles takes what cannot be used
 */
export function readFillOptions(values: Values, troubles: Trouble<'options'>[]): FillAsked {
  const refuse = (where: string, what: string, mend: string): void => {
    troubles.push({ kind: 'options', where, what, mend });
  };
  const oneOf = <Each extends string>(where: string, text: string, among: readonly Each[]): Each => {
    const found = among.find((each) => each === text.trim().toLowerCase());
    // An empty value is told as a missing one already.
    if (found === undefined && text !== '') {
      refuse(where, `"${text}" is not known here.`, `Use one of ${among.join(', ')}.`);
    }
    return found ?? among[0]!;
  };
  const method = values.fill === undefined ? 'banked' : oneOf('--fill', values.fill, METHODS);
  const law = values.law === undefined ? null : oneOf('--law', values.law, LAWS);
  const startBar = values.back === undefined ? USUAL_STARTS_BAR.metric : number(values.back);
  if (!(startBar >= 0)) refuse('--back', `"${values.back}" is no pressure.`, 'Write bar, as in --back 50.');
  const left = values.left === undefined ? null : number(values.left);
  if (left !== null && !(left >= 21 && left <= 100)) {
    refuse('--left', `"${values.left}" is no share of oxygen.`, 'Write a percent from 21 to 100.');
  }
  if (left !== null && values.fill !== undefined && method !== 'partial-pressure') {
    refuse('--left', FILL_GROUP.alone.what, FILL_GROUP.alone.mend);
  }
  const [, waterL, fillBar] =
    /^\s*(\d+(?:\.\d+)?)\s*x\s*(\d+(?:\.\d+)?)\s*$/i.exec(values.bottle ?? '') ?? [];
  const bottle = { waterL: Number(waterL), fillBar: Number(fillBar) };
  const isBottle = bottle.waterL > 0 && bottle.fillBar > 0;
  if (values.bottle !== undefined && values.bottle !== '' && !isBottle) {
    refuse('--bottle', `"${values.bottle}" is no bottle.`, 'Write litres and bar, as in --bottle 50x200.');
  }
  return {
    method,
    law,
    startBar,
    isStartGiven: values.back !== undefined,
    startO2: left === null ? null : left / 100,
    bottle: values.bottle === undefined || !isBottle ? USUAL_BOTTLES.metric : bottle,
  };
}
