import type { ReactNode } from 'react';
import type { Diver } from '../../../core/document/types';
import { chooseDives, goTo } from '../../actions/view';
import { cylinderText } from '../../figures/format';
import { countText, depthText, numberText, percentText, unitText, valueText } from '../../figures/format';
import { roomWords } from '../../figures/room';
import { type System as Units } from '../../../core/words/quantity';
import { diveNumber, selectRoomLimit, selectRoomMin } from '../../store/selectors';
import { useDesk } from '../../store/store';
import type { DiverFigures } from './party-figures';
import { choosePartyView } from './party-view';
import { entryDate, isCare, momentText } from './party-words';

function pressuresText({ fillBar, reserveBar }: Diver['cylinder'], units: Units): string {
  const fill = valueText(fillBar, 'pressure', units, 'down');
  return `${fill} / ${unitText(reserveBar, 'pressure', units, 'near')}`;
}

function earlierText({ before = [], arrivedAt }: Diver): string {
  const count = before.length === 0 ? '' : String(before.length);
  const climb = arrivedAt === undefined ? '' : 'climb';
  return [count, climb].filter((part) => part !== '').join(', ');
}

/** Every diver on a line: gear, limits, past, and how tight it gets. A name opens their card. */
export function DiverTable(props: {
  readonly figures: readonly DiverFigures[];
  readonly shownId: string | null;
}): ReactNode {
  return (
    <div className="wide-table">
      <table className="divers-table">
        <caption className="unseen">The divers of the trip</caption>
        <thead>
          <tr>
            <th scope="col">Diver</th>
            <th scope="col">Tightest dive</th>
            <th scope="col">No flying before</th>
            <th scope="col">Gas rate</th>
            <th scope="col">Cylinder</th>
            <th scope="col">Fill / reserve</th>
            <th scope="col">Depth</th>
            <th scope="col">Oxygen</th>
            <th scope="col">PO2</th>
            <th scope="col">Gradient</th>
            <th scope="col">Earlier</th>
          </tr>
        </thead>
        <tbody>
          {props.figures.map((each) => (
            <Row key={each.diver.id} figures={each} isShown={each.diver.id === props.shownId} />
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Row({ figures, isShown }: { readonly figures: DiverFigures; readonly isShown: boolean }): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  const clock = useDesk(({ settings }) => settings.clock);
  const { diver, flyAfterMin, isLastToFly } = figures;
  const low = numberText(diver.gradient.low * 100, 0, 'near');
  const high = numberText(diver.gradient.high * 100, 0, 'near');
  return (
    <tr className={isShown ? 'shown' : undefined}>
      <th scope="row">
        <button
          type="button"
          className="ask"
          aria-pressed={isShown}
          title={diver.name}
          onClick={() => choosePartyView({ diverId: diver.id })}
        >
          {diver.name}
        </button>
      </th>
      <Tightest figures={figures} />
      <td className={isLastToFly ? 'figure' : undefined}>
        {momentText(flyAfterMin, clock)}
        {isLastToFly ? <span className="soft"> last</span> : null}
      </td>
      <td>{unitText(diver.surfaceRateLpm, 'gas-rate', units, 'near', units === 'imperial' ? 2 : 0)}</td>
      <td>{cylinderText(diver.cylinder, units)}</td>
      <td>{pressuresText(diver.cylinder, units)}</td>
      <td>{depthText(diver.maxDepthM, units, 'down')}</td>
      <td>{percentText(diver.maxO2, 'down')}</td>
      <td>
        {numberText(diver.po2.working, 2, 'near')} / {numberText(diver.po2.contingency, 2, 'near')}
      </td>
      <td>
        {low} / {high}
      </td>
      <td>{earlierText(diver) || <span className="soft">none</span>}</td>
    </tr>
  );
}

function Tightest({ figures }: { readonly figures: DiverFigures }): ReactNode {
  const trip = useDesk((state) => state.trip);
  const roomMinOf = useDesk(selectRoomMin);
  const limitOf = useDesk(selectRoomLimit);
  const { tightest: entry, alike, isTightestOfParty, dives } = figures;
  if (entry === null) return <td>{dives === 0 ? 'no dive' : 'no limit'}</td>;
  const roomMin = roomMinOf(entry);
  return (
    <td className={isCare(roomMin) ? 'care may-wrap' : 'may-wrap'}>
      <button
        type="button"
        className="ask"
        onClick={() => {
          goTo('days');
          chooseDives([entry.dive.id]);
        }}
      >
        {isTightestOfParty ? <span aria-hidden="true">▸ </span> : null}
        <span className="figure">{roomWords(entry, roomMin, limitOf(entry))}</span>, dive{' '}
        {diveNumber(trip, entry.dive.id)}, {entryDate(entry)}
        {alike > 0 ? (
          <>
            <span aria-hidden="true" title={`As tight on ${countText(alike)} more`}>
              {' '}
              +{alike}
            </span>
            <span className="unseen"> and {countText(alike)} more</span>
          </>
        ) : null}
        {isTightestOfParty ? <span className="unseen">, tightest of the party</span> : null}
      </button>
    </td>
  );
}
