import type { ReactNode } from 'react';
import type { StartingTrip } from '../../../core/proposal/starting-sheet';
import type { Dive, Trip } from '../../../core/document/types';
import { clockText, countText, dateText, depthText, minutesText, spanText } from '../../figures/format';
import { siteOf } from '../../store/selectors';
import { useDesk } from '../../store/store';
import type { ReadSiteList } from '../sites/site-list';
import { isWithoutSites, listFault } from './starting-form';
import { changeForm, useStartingView } from './starting-view';

/** What the answers come to: the days, and the reasons; or what stands in the way. */
export function LaidOutTrip({ read }: { readonly read: ReadSiteList }): ReactNode {
  const laidOut = useStartingView((view) => view.laidOut);
  const form = useStartingView((view) => view.form);
  return (
    <section className="laid-out" aria-label="What it lays out" aria-busy={laidOut.kind === 'working'}>
      <h3>What it lays out</h3>
      {laidOut.kind === 'none' ? (
        <p className="soft" role="status">
          {listFault(read)}
        </p>
      ) : null}
      {laidOut.kind === 'working' ? (
        <p className="soft" role="status">
          Laying out…
        </p>
      ) : null}
      {laidOut.kind === 'fault' ? (
        <p className="care" role="alert">
          It could not be laid out: {laidOut.message} Change an answer to try again; nothing typed is lost.
        </p>
      ) : null}
      {laidOut.kind === 'done' && laidOut.result.ok ? <Preview laid={laidOut.result.value} /> : null}
      {laidOut.kind === 'done' && !laidOut.result.ok ? (
        <p className="soft" role="status">
          {isWithoutSites(form)
            ? 'Give the sites, and the days of the trip stand here.'
            : 'One of the answers cannot be used; the reason stands beside it.'}
        </p>
      ) : null}
    </section>
  );
}

function Preview({ laid }: { readonly laid: StartingTrip }): ReactNode {
  const { trip, explanations } = laid;
  const keepsReasons = useStartingView(({ form }) => form.keepsReasons);
  const dates = [...new Set(trip.dives.map(({ startsAt }) => startsAt.slice(0, 10)))];
  const bottomMin = trip.dives.reduce((sum, dive) => sum + dive.bottomMin, 0);
  return (
    <>
      <p role="status">
        {trip.dives.length === 0
          ? 'No dive fits. The reasons stand below.'
          : `${trip.dives.length === 1 ? 'One dive' : `${trip.dives.length} dives`} on ${dates.length === 1 ? 'one day' : `${countText(dates.length)} days`}, ${spanText(bottomMin, 'near')} of bottom time.`}
      </p>
      {dates.length > 0 ? <Days trip={trip} dates={dates} /> : null}
      <h3>Why so</h3>
      <ul className="reasons">
        {explanations.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
      <label className="tick">
        <input
          type="checkbox"
          checked={keepsReasons}
          onChange={(event) => changeForm({ keepsReasons: event.target.checked })}
        />
        Keep the reasons in the notes of the trip
      </label>
    </>
  );
}

function Days({ trip, dates }: { readonly trip: Trip; readonly dates: readonly string[] }): ReactNode {
  const clock = useDesk(({ settings }) => settings.clock);
  const times = [...new Set(trip.dives.map(({ startsAt }) => startsAt.slice(11)))].toSorted();
  return (
    <div className="wide-table">
      <table className="laid-days">
        <caption className="unseen">Dives by day and time</caption>
        <thead>
          <tr>
            <th scope="col">Day</th>
            {times.map((time) => (
              <th key={time} scope="col">
                {clockText(`0000-00-00T${time}`, clock)}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {dates.map((date) => (
            <tr key={date}>
              <th scope="row">{dateText(date)}</th>
              {times.map((time) => (
                <td key={time}>
                  <DiveText
                    trip={trip}
                    dive={trip.dives.find(({ startsAt }) => startsAt === `${date}T${time}`)}
                  />
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function DiveText({ trip, dive }: { readonly trip: Trip; readonly dive: Dive | undefined }): ReactNode {
  const units = useDesk(({ settings }) => settings.units);
  if (!dive) return <span className="unseen">no dive</span>;
  return (
    <>
      <span className="figure">
        {depthText(dive.depthM, units)}, {minutesText(dive.bottomMin, 'near')}
      </span>
      <span className="laid-site">{siteOf(trip, dive.siteId)?.name}</span>
    </>
  );
}
