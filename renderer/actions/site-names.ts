/** That no two sites of a trip have one name. Apart from the edits of sites, which are loaded with their place. */
import { failure } from '../../core/result';
import type { Id } from '../../core/document/types';
import { isSameName } from '../figures/names';
import { desk } from '../store/store';
import type { EditResult } from './edit';

/** Two sites of one name cannot be told apart where one is chosen; a file that has them is still read. */
export function twinTrouble(name: string, ownId: Id | null): EditResult | null {
  const { sites } = desk.getState().trip;
  const at = sites.findIndex((site) => site.id !== ownId && isSameName(site.name, name));
  return at === -1 ? null : twinFailure(sites[at]!.name, `sites[${at}].name`);
}

/** The refusal of a name that another site has. */
export function twinFailure(name: string, where: string): EditResult {
  const mend = 'Give a name by which the two are told apart.';
  return failure({ kind: 'in-use', what: `${name} is the name of another site.`, where, mend });
}
