/** Lays out trips beside the window, so that typing never waits for it. */
import { startingSheet } from '../../../core/proposal/starting-sheet';
import { wordsIn } from '../../figures/reader';
import { answerAsks } from '../../parts/answer-asks';
import type { StartingAsk, StartingMade } from './starting-job';

answerAsks<StartingAsk, StartingMade>(({ answers, settings }) => startingSheet(answers, wordsIn(settings)));
