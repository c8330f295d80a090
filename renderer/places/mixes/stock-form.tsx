import { rounded } from '../../../core/words/quantity';
import type { ReactNode } from 'react';
import {
  diveDates,
  LEANEST_PERCENT,
  MOST_MIXES,
  RICHEST_PERCENT,
  type StockRequest,
} from '../../../core/mixes/shares';
import type { Trip } from '../../../core/document/types';
import { dateText, mixText } from '../../figures/format';
import { parseNumber } from '../../figures/parse';
import { Choice } from '../../parts/choice';
import { Field } from '../../parts/field';
import { moneyText } from './mixes-words';

/** 21 % is air, which is on board anyhow, so it is not offered; a list may still come out needing fewer mixes. */
const OFFERED = Array.from({ length: RICHEST_PERCENT - LEANEST_PERCENT }, (_, i) => LEANEST_PERCENT + 1 + i);

type Standing = 'open' | 'fixed' | 'excluded';

const NEXT: Readonly<Record<Standing, Standing>> = { open: 'fixed', fixed: 'excluded', excluded: 'open' };
const SAID: Readonly<Record<Standing, string>> = {
  open: 'may be stocked',
  fixed: 'in every list',
  excluded: 'in no list',
};

function isWholePercent(o2: number): boolean {
  return rounded(o2 * 100, 0, 'up') === rounded(o2 * 100, 0, 'down');
}

function standingOf(request: StockRequest, percent: number): Standing {
  if (request.fixedPercents.includes(percent)) return 'fixed';
  return request.excludedPercents.includes(percent) ? 'excluded' : 'open';
}

function withStanding(request: StockRequest, percent: number, standing: Standing): StockRequest {
  const others = (percents: readonly number[]) => percents.filter((each) => each !== percent);
  return {
    ...request,
    fixedPercents: [...others(request.fixedPercents), ...(standing === 'fixed' ? [percent] : [])],
    excludedPercents: [...others(request.excludedPercents), ...(standing === 'excluded' ? [percent] : [])],
  };
}

function Shares({ request, change }: FormProps): ReactNode {
  return (
    <fieldset className="shares">
      <legend>Oxygen in %. Press once to have it in every list, twice to have it in none</legend>
      {OFFERED.map((percent) => {
        const standing = standingOf(request, percent);
        return (
          <button
            key={percent}
            type="button"
            className={`share ${standing}`}
            aria-label={`${percent} %, ${SAID[standing]}`}
            onClick={() => change(withStanding(request, percent, NEXT[standing]))}
          >
            {percent}
            <span aria-hidden="true">{standing === 'fixed' ? '✓' : standing === 'excluded' ? '×' : ''}</span>
          </button>
        );
      })}
    </fieldset>
  );
}

/** A limit that may be left open. */
function LimitField(props: {
  readonly label: string;
  readonly value: number | null;
  readonly commit: (value: number | null) => void;
}): ReactNode {
  return (
    <Field<number | null>
      label={props.label}
      value={props.value}
      show={(value) => (value === null ? 'any' : moneyText(value))}
      parse={(text) => {
        if (/^(?:any)?$/i.test(text.trim())) return { ok: true, value: null };
        const number = parseNumber(text);
        if (number.ok && number.value < 0) {
          return { ok: false, what: 'A limit is not below 0.', mend: 'Type 0 or more, or “any”.' };
        }
        return number;
      }}
      commit={props.commit}
    />
  );
}

interface FormProps {
  readonly request: StockRequest;
  readonly change: (request: StockRequest) => void;
}

/** What is asked of the search. */
export function StockForm({ trip, request, change }: FormProps & { readonly trip: Trip }): ReactNode {
  const onBoard = trip.mixes.map((mix) => mix.o2 * 100);
  const odd = trip.mixes.filter((mix) => !isWholePercent(mix.o2));
  const ashore = OFFERED.filter((percent) => !onBoard.some((each) => Math.abs(each - percent) < 1e-6));
  const isOnlyOnBoard =
    request.excludedPercents.length === ashore.length &&
    ashore.every((percent) => request.excludedPercents.includes(percent));
  return (
    <div className="stock-form">
      <div className="mixes-tools">
        <Choice
          label="Mixes besides air"
          value={String(request.count)}
          options={Array.from({ length: MOST_MIXES }, (_, i) => ({
            value: String(i + 1),
            label: String(i + 1),
          }))}
          commit={(count) => change({ ...request, count: Number(count) })}
        />
        <Choice
          label="For the dives"
          value={request.fromDate ?? ''}
          options={[
            { value: '', label: 'of the whole trip' },
            ...diveDates(trip).map((date, i) => ({
              value: date,
              label: `from day ${i + 1}, ${dateText(date)}`,
            })),
          ]}
          commit={(date) => change({ ...request, fromDate: date === '' ? null : date })}
        />
        <LimitField
          label="Largest cost"
          value={request.maxCost}
          commit={(maxCost) => change({ ...request, maxCost })}
        />
        <LimitField
          label="Most fills but air"
          value={request.maxFills}
          commit={(maxFills) => change({ ...request, maxFills })}
        />
      </div>
      <Shares request={request} change={change} />
      <label className="tick">
        <input
          type="checkbox"
          checked={isOnlyOnBoard}
          onChange={() =>
            change({ ...request, fixedPercents: [], excludedPercents: isOnlyOnBoard ? [] : ashore })
          }
        />
        Only what is on board, as when the blender fails
      </label>
      {odd.length === 0 ? null : (
        <p className="soft">
          The search looks at whole percents: {odd.map((mix) => mixText(mix.o2)).join(', ')} is left out of
          it.
        </p>
      )}
    </div>
  );
}
