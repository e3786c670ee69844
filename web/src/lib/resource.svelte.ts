import { problem_of, type Problem } from './client';

/** One answer of the program and where it stands. A newer request stops the older one. */
export class Resource<T> {
  value = $state.raw<T | null>(null);
  problem = $state.raw<Problem | null>(null);
  loading = $state(false);
  #stop: AbortController | null = null;

  async load(ask: (options: { signal: AbortSignal }) => Promise<T>): Promise<void> {
    this.#stop?.abort();
    const stop = new AbortController();
    this.#stop = stop;
    this.loading = true;
    this.problem = null;
    try {
      const value = await ask({ signal: stop.signal });
      if (!stop.signal.aborted) this.value = value;
    } catch (error) {
      if (!stop.signal.aborted) this.problem = problem_of(error);
    } finally {
      if (this.#stop === stop) this.loading = false;
    }
  }

  forget(): void {
    this.#stop?.abort();
    this.value = null;
    this.problem = null;
    this.loading = false;
  }
}
