/** What can be done with what lies under the pointer: a dive, a site or a diver. */
import type { Dive, Diver, Id, Site } from '../../core/document/types';
import { addDive } from '../actions/dives';
import { tell } from '../actions/edit';
import { exportUddf } from '../actions/exports';
import { nextStart } from '../actions/next-start';
import { removeDiver } from '../actions/party';
import { removeSite } from '../actions/sites';
import { chooseDiver, chooseDives, goTo, goToDives, showMending } from '../actions/view';
import { commandById } from '../commands/all';
import { isEnabled, labelOf } from '../commands/registry';
import { todayText } from '../figures/local-time';
import { desk } from '../store/store';

export interface ContextItem {
  readonly label: string;
  readonly enabled: boolean;
  readonly run: () => void;
}

export interface ContextItems {
  /** What it is of, for who cannot see where it opened. */
  readonly name: string;
  readonly items: readonly ContextItem[];
}

const OF_DIVES = ['dive.copy', 'day.copy', 'edit.copy', 'edit.paste', 'dive.swap', 'dive.delete'] as const;

function ofDive({ id }: Dive, number: number): ContextItems {
  const { selection } = desk.getState();
  // Of several that are chosen it stays the menu of all of them.
  if (!selection.diveIds.includes(id)) chooseDives([id]);
  const state = desk.getState();
  const { length } = state.selection.diveIds;
  const commands = OF_DIVES.map((each) => commandById(each)).map((command) => ({
    label: labelOf(command, state),
    enabled: isEnabled(command, state),
    run: () => command.run(),
  }));
  const mend = { label: 'Mend this dive', enabled: length === 1, run: () => showMending(id) };
  return {
    name: length > 1 ? `${length} dives` : `Dive ${number}`,
    items: [...commands.slice(0, -1), mend, ...commands.slice(-1)],
  };
}

function ofSite({ id, name, depthM }: Site): ContextItems {
  const { trip } = desk.getState();
  const here = trip.dives.filter(({ siteId }) => siteId === id).map((dive) => dive.id);
  return {
    name,
    items: [
      {
        label: 'New dive here',
        enabled: true,
        run: () => {
          goTo('days');
          tell(addDive({ startsAt: nextStart(desk.getState(), todayText()), siteId: id, depthM }));
        },
      },
      {
        label: here.length === 1 ? 'Go to its dive' : `Go to its ${here.length} dives`,
        enabled: here.length > 0,
        run: () => goToDives(here),
      },
      { label: 'Remove the site', enabled: here.length === 0, run: () => void tell(removeSite(id)) },
    ],
  };
}

function ofDiver({ id, name }: Diver): ContextItems {
  const { trip } = desk.getState();
  return {
    name,
    items: [
      {
        label: `Days of ${name}`,
        enabled: true,
        run: () => {
          chooseDiver(id);
          goTo('days');
        },
      },
      {
        label: `Save the dives of ${name} as UDDF`,
        enabled: trip.dives.length > 0,
        run: () => {
          chooseDiver(id);
          void exportUddf();
        },
      },
      { label: `Remove ${name}`, enabled: trip.party.length > 1, run: () => void tell(removeDiver(id)) },
    ],
  };
}

const ids = (element: Element, kind: string): Id | null =>
  element.closest(`[data-${kind}]`)?.getAttribute(`data-${kind}`) ?? null;

/** The menu of what an element belongs to; null where there is none. */
export function contextItems(element: Element): ContextItems | null {
  const { trip } = desk.getState();
  const diveAt = trip.dives.findIndex(({ id }) => id === ids(element, 'dive'));
  if (diveAt !== -1) return ofDive(trip.dives[diveAt]!, diveAt + 1);
  const site = trip.sites.find(({ id }) => id === ids(element, 'site'));
  if (site) return ofSite(site);
  const diver = trip.party.find(({ id }) => id === ids(element, 'diver'));
  return diver ? ofDiver(diver) : null;
}
