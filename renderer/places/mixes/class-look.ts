import type { ClassLook } from '../../../core/mixes/class-dive';
import type { MixesView } from './mixes-view';

/** What the class looks at, as core is asked. */
export function classLook({ depthM, percents, loop, hasLoop }: MixesView['classroom']): ClassLook {
  return { depthM, percents, loop: hasLoop ? loop : null };
}
