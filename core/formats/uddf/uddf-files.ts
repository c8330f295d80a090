import { slugOf } from '../../library';
import type { Id } from '../../document/types';
import type { Ledger } from '../../ledger/ledger-types';
import { writeUddf, type UddfDives } from './write-uddf';

/** A file of an export: its name, and what is in it. */
export interface ExportedFile {
  readonly name: string;
  readonly text: string;
}

export interface ExportedFiles {
  readonly files: readonly ExportedFile[];
  /** What could not go into them, or has to be known of them, as sentences. */
  readonly remarks: readonly string[];
}

/**
 * UDDF knows one owner a file: the dives of some divers, a file for each.
 * @param diverIds whose; null: of the whole party @param stampedAtUtc "2027-03-01T18:00:00Z" @param dives as `writeUddf`
 * @returns files with names of their own, in the order of the party; a remark that holds for several is said once
 * Source: as `writeUddf`.
 */
export function uddfFiles(
  ledger: Ledger,
  diverIds: readonly Id[] | null,
  stampedAtUtc: string,
  dives: UddfDives = 'all',
): ExportedFiles {
  const { party, title } = ledger.trip;
  const files: ExportedFile[] = [];
  const remarks = new Map<string, string[]>();
  const taken = new Set<string>();
  for (const diver of party) {
    if (diverIds !== null && !diverIds.includes(diver.id)) continue;
    const { text, remarks: said } = writeUddf(ledger, diver.id, stampedAtUtc, dives);
    const slug = `${slugOf(title)}-${slugOf(diver.name)}`;
    const count = party.length;
    const numbered = Array.from({ length: count }, (_, at) => (at === 0 ? slug : `${slug}-${at + 1}`));
    const name = numbered.find((each) => !taken.has(each))!;
    taken.add(name);
    files.push({ name: `${name}.uddf`, text });
    for (const remark of said) remarks.set(remark, [...(remarks.get(remark) ?? []), diver.name]);
  }
  return {
    files,
    remarks: [...remarks].map(([remark, names]) =>
      files.length === 1 || names.length === files.length ? remark : `${names.join(', ')}: ${remark}`,
    ),
  };
}
