import { chooseDives, chooseDiver, goToDives } from '../actions/view';
import { clockText, dateText } from '../figures/format';
import type { Desk } from '../store/store';
import type { Command } from './registry';

/** What the trip itself offers beside the commands of the window: a diver to look at, a dive to go to. For the palette. */
export function commandsOfTrip({ trip: open, settings }: Desk): readonly Command[] {
  const divers = open.party.map(({ id, name }): Command => ({
    id: `look-at.${id}`,
    group: 'View',
    label: `Figures of ${name}`,
    run: () => chooseDiver(id),
  }));
  const sites = new Map(open.sites.map(({ id, name }) => [id, name]));
  const dives = open.dives.map(({ id, siteId, startsAt }, i): Command => ({
    id: `go-to.${id}`,
    group: 'Dive',
    label: `Dive ${i + 1}, ${sites.get(siteId) ?? siteId}, ${dateText(startsAt)}, ${clockText(startsAt, settings.clock)}`,
    // On Days the hand may be in the card, which goes on from there with the dive that is found.
    run: () => (settings.place === 'days' ? chooseDives([id]) : goToDives([id])),
  }));
  return [...divers, ...dives];
}
