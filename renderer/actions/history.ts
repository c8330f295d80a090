import { redo, undo } from '../store/history';
import { desk } from '../store/store';

export function undoStep(): void {
  const { trip, history } = desk.getState();
  desk.setState({ ...undo(history, trip), notice: null });
}

export function redoStep(): void {
  const { trip, history } = desk.getState();
  desk.setState({ ...redo(history, trip), notice: null });
}
