/** Searches what to stock beside the window, so that nothing stutters; the window ends it to cancel. */
import { searchStock } from '../../../core/mixes/stock';
import { answerAsks } from '../../parts/answer-asks';
import type { StockAsk, StockFound } from './stock-job';

answerAsks<StockAsk, StockFound>(({ trip, request }, progress) => searchStock(trip, request, progress));
