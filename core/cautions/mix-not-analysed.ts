import type { Rule } from './rule';
import { listed } from './wording';

/** Mixes whose figures rest on the label. Source: as in the rule. */
export const mixNotAnalysed: Rule = {
  code: 'mix-not-analysed',
  severity: 'know',
  source: 'M. A. Lang (ed.), DAN Nitrox Workshop Proceedings (2001): analysis verified by the end user',
  find: ({ trip, divers }, say) => {
    const ids = new Set<string>();
    for (const { entries } of divers) {
      for (const { mix, isAnalysed } of entries) if (mix !== null && !isAnalysed) ids.add(mix.id);
    }
    const labels = new Set(trip.mixes.filter((mix) => ids.has(mix.id)).map((mix) => mix.o2));
    const names = [...labels].toSorted((a, b) => a - b).map((o2) => say.percentO2(o2));
    if (names.length === 0) return [];
    const message =
      names.length === 1
        ? `The figures for the mix of ${names[0]} rest on its label: analyse every cylinder yourself and enter what it reads.`
        : `The figures for the mixes of ${listed(names)} rest on their labels: analyse every cylinder yourself and enter what it reads.`;
    return [{ diverId: null, diveId: null, atMin: -Infinity, message }];
  },
};
