import * as api from '../api';
import { Problem } from './client';

/** A use case that runs in the program while the page watches: it tells its steps and can be stopped. */
export interface Step {
  /** 0..1 */
  fraction: number;
  text: string;
}
export interface Job<T> {
  /** The use case's answer; rejects with `Problem`, code "stopped" after `stop`. */
  readonly answer: Promise<T>;
  stop(): void;
  /** Stops it as the page goes away: nobody will read the answer, and the program runs few jobs at once. */
  abandon(): void;
}
type Calls = Pick<typeof api, 'startJob' | 'watchJob' | 'jobResult' | 'cancelJob'>;

function stopped_problem(): Problem {
  return new Problem('stopped', 'stopped before it was done', 'nothing was changed; start it again when you wish');
}
function lost_problem(): Problem {
  return new Problem('lost', 'the program stopped reporting', 'look at the window in which it runs, then try again');
}

/** Starts `use_case`; `calls` are those of the API, or a test's. */
export function run_job<U extends api.UseCaseName>(
  use_case: U,
  request: api.UseCases[U]['request'],
  on_step: (step: Step) => void,
  calls: Calls = api,
): Job<api.UseCases[U]['response']> {
  let id: string | null = null;
  let stopped = false;
  let give_up: (problem: Problem) => void = () => undefined;

  const cancel = () => {
    if (id !== null) void calls.cancelJob(id).catch(() => undefined);
  };
  const cancel_last = () => {
    if (id !== null) void fetch(`/api/jobs/${encodeURIComponent(id)}`, { method: 'DELETE', keepalive: true }).catch(() => undefined);
  };
  const stop = (how: () => void) => {
    if (stopped) return;
    stopped = true;
    how();
    give_up(stopped_problem());
  };
  const run = async () => {
    const begun = await calls.startJob(use_case, request);
    id = begun.id;
    if (stopped) {
      cancel();
      throw stopped_problem();
    }
    const state = begun.state === 'running' ? await watched(begun.id) : begun.state;
    if (state === 'stopped') throw stopped_problem();
    return await calls.jobResult(use_case, begun.id);
  };
  const watched = (job: string) =>
    new Promise<api.JobState['state']>((resolve, reject) => {
      const seen = (state: api.JobState) => {
        if (state.state === 'running') on_step({ fraction: state.fraction, text: state.text });
        else resolve(state.state);
      };
      const close = calls.watchJob(job, seen, () => reject(lost_problem()));
      give_up = (problem) => {
        close();
        reject(problem);
      };
    });

  const answer = run();
  answer.catch(() => undefined);
  return {
    answer,
    stop: () => stop(cancel),
    abandon: () => stop(cancel_last),
  };
}
