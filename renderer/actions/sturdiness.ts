/** What the strip shows of how sturdy the plan is. */
import { desk } from '../store/store';

/** Draws where most runs lie about the curve of nitrogen, or leaves it out. */
export function showSturdyBand(hasSturdyBand: boolean): void {
  desk.setState({ hasSturdyBand });
}
