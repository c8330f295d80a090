/** Draws the runs of one diver beside the window, for the band about the curve. */
import { curveBand, type BandMoment } from '../../../../core/sturdiness/curve-band';
import { answerAsks } from '../../../parts/answer-asks';
import type { BandAsk } from './sturdy-band-job';

answerAsks<BandAsk, readonly BandMoment[]>(({ trip, diverId, draw, untilMin }) =>
  curveBand(trip, diverId, draw, untilMin),
);
