import type { ReactNode } from 'react';
import {
  diveDates,
  LEANEST_PERCENT,
  MOST_MIXES,
  RICHEST_PERCENT,
  USUAL_RANGE,
  type ShareRange,
  type StockRequest,
} from '../../../core/mixes/shares';
import type { Trip } from '../../../core/document/types';
import { countText, dateText, shortText } from '../../figures/format';
import { parseNumber, type Parsed } from '../../figures/parse';
import { WordChoice, WordField } from './in-sentence';

/** A limit that may be left open. */
function LimitWord(props: {
  readonly label: string;
  readonly any: string;
  readonly value: number | null;
  readonly show: (value: number) => string;
  readonly commit: (value: number | null) => void;
}): ReactNode {
  const { label, any, value, show, commit } = props;
  const parse = (text: string): Parsed<number | null> => {
    const typed = text.trim().toLowerCase();
    if (typed === '' || typed === 'any' || typed === any) return { ok: true, value: null };
    const number = parseNumber(text);
    return number.ok && number.value < 0
      ? { ok: false, what: 'A limit is not below 0.', mend: 'Type 0 or more, or “any”.' }
      : number;
  };
  return (
    <WordField<number | null>
      label={label}
      value={value}
      show={(shown) => (shown === null ? any : show(shown))}
      parse={parse}
      commit={commit}
    />
  );
}

const RANGES: readonly { readonly id: string; readonly range: ShareRange | null; readonly label: string }[] =
  [
    { id: 'usual', range: USUAL_RANGE, label: `${USUAL_RANGE.fromPercent} to ${RICHEST_PERCENT} % oxygen` },
    {
      id: 'every',
      range: { fromPercent: LEANEST_PERCENT, toPercent: RICHEST_PERCENT },
      label: `${LEANEST_PERCENT} to ${RICHEST_PERCENT} % oxygen`,
    },
    { id: 'board', range: null, label: 'what is on board' },
  ];

function rangeId({ range }: StockRequest): string {
  return (
    RANGES.find(
      (each) => each.range?.fromPercent === range?.fromPercent && each.range?.toPercent === range?.toPercent,
    )?.id ?? 'usual'
  );
}

/** What is asked of the search, as one sentence whose words can be changed. */
export function StockAskLine(props: {
  readonly trip: Trip;
  readonly request: StockRequest;
  readonly change: (request: StockRequest) => void;
}): ReactNode {
  const { trip, request, change } = props;
  return (
    <span>
      Stock{' '}
      <WordChoice
        label="Mixes besides air, at most"
        value={String(request.count)}
        options={Array.from({ length: MOST_MIXES }, (_, i) => ({
          value: String(i + 1),
          label: i === 0 ? 'one mix' : `at most ${countText(i + 1)} mixes`,
        }))}
        commit={(count) => change({ ...request, count: Number(count) })}
      />{' '}
      besides air, of{' '}
      <WordChoice
        label="To choose from"
        value={rangeId(request)}
        options={RANGES.map(({ id, label }) => ({ value: id, label }))}
        commit={(id) => change({ ...request, range: RANGES.find((each) => each.id === id)!.range })}
      />
      , for{' '}
      <WordChoice
        label="For the dives"
        value={request.fromDate ?? ''}
        options={[
          { value: '', label: 'the whole trip' },
          ...diveDates(trip).map((date) => ({ value: date, label: `dives from ${dateText(date)} on` })),
        ]}
        commit={(date) => change({ ...request, fromDate: date === '' ? null : date })}
      />
      , at{' '}
      <LimitWord
        label="Largest cost"
        any="any cost"
        value={request.maxCost}
        show={(cost) => shortText(cost, 2)}
        commit={(maxCost) => change({ ...request, maxCost })}
      />{' '}
      and{' '}
      <LimitWord
        label="Most fills"
        any="any number of fills"
        value={request.maxFills}
        show={(fills) => shortText(fills, 0)}
        commit={(maxFills) => change({ ...request, maxFills })}
      />
      .
    </span>
  );
}
