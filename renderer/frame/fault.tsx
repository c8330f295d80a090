import { Component, type ReactNode } from 'react';
import { saveAs } from '../actions/files';
import styles from './fault.module.css';

interface State {
  readonly message: string | null;
}

/** Where a fault of ours stops a view: says so, and lets the trip be saved before anything else. */
export class Fault extends Component<{ readonly children: ReactNode }, State> {
  override state: State = { message: null };

  static getDerivedStateFromError(error: unknown): State {
    return { message: error instanceof Error ? error.message : String(error) };
  }

  override render(): ReactNode {
    if (this.state.message === null) return this.props.children;
    return (
      <main className={styles.fault} role="alert">
        <h1>Carryover has a fault and stopped drawing.</h1>
        <p>{this.state.message}</p>
        <p>The trip is as it was before. Save a copy, then load the window again.</p>
        <p>
          <button type="button" className="button first" onClick={() => void saveAs()}>
            Save a copy of the trip
          </button>{' '}
          <button type="button" className="button" onClick={() => window.location.reload()}>
            Load again
          </button>
        </p>
      </main>
    );
  }
}
