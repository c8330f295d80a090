import { listed, said } from '../words/said';
import { mixSaid } from '../words/terms';
import type { Rule } from './rule';

/** Mixes whose figures rest on the label. Source: as in the rule. */
export const mixNotAnalysed: Rule = {
  code: 'mix-not-analysed',
  severity: 'know',
  source: said`M. A. Lang (ed.), DAN Nitrox Workshop Proceedings (2001): analysis verified by the end user`,
  find: ({ trip, divers }) => {
    const ids = new Set<string>();
    for (const { entries } of divers) {
      for (const { mix, isAnalysed, loop } of entries) {
        if (mix !== null && !isAnalysed) ids.add(mix.id);
        const along =
          loop === null ? [] : [loop.diluent, ...(loop.bailOut?.mixes ?? []).map((each) => each.mix)];
        for (const each of along) if (each.analysedO2 === undefined) ids.add(each.id);
      }
    }
    const labels = new Set(trip.mixes.filter((mix) => ids.has(mix.id)).map((mix) => mix.o2));
    const names = [...labels].toSorted((a, b) => a - b).map(mixSaid);
    if (names.length === 0) return [];
    const says =
      names.length === 1
        ? said`The figures for ${names[0]!} rest on its label: analyse every cylinder yourself and enter what it reads.`
        : said`The figures for ${listed(names)} rest on their labels: analyse every cylinder yourself and enter what it reads.`;
    return [{ diverId: null, diveId: null, atMin: -Infinity, says }];
  },
};
