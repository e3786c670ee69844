import type { CompareRequest } from '../../api';
import { run_job, type Job, type Step } from '../../lib/jobs';
import type { Compared } from './answer';

/** A comparison runs as a job: it tells its steps, can be stopped, and stops when nobody waits for it any more. */
export class Asking {
  step = $state.raw<Step | null>(null);
  #job: Job<Compared> | null = null;

  constructor() {
    $effect(() => {
      const leave = () => this.#job?.abandon();
      addEventListener('pagehide', leave);
      return () => {
        removeEventListener('pagehide', leave);
        this.#job?.stop();
      };
    });
  }

  ask(request: Record<string, unknown>, signal?: AbortSignal): Promise<Compared> {
    this.step = null;
    const job: Job<Compared> = run_job('compare', request as unknown as CompareRequest, (step) => (this.step = step));
    this.#job = job;
    signal?.addEventListener('abort', () => job.stop());
    return job.answer;
  }

  stop(): void {
    this.#job?.stop();
  }
}
