import * as api from '../api';
import { run_job, type Job, type Step } from './jobs';
import { Resource } from './resource.svelte';

/** What several rooms read of the record, asked for once. */
class Record {
  site = new Resource<api.SiteResponse>();
  findings = new Resource<api.CheckResponse>();
  dates = new Resource<api.DateResponse>();
  phases = new Resource<api.TallyResponse>();
  changes = new Resource<api.HistoryResponse>();
  step = $state.raw<Step | null>(null);
  #job: Job<api.DateResponse> | null = null;
  #begun = false;

  constructor() {
    addEventListener('pagehide', () => {
      if (this.dates.loading) this.#job?.abandon();
    });
  }

  read_site(): void {
    void this.site.load((options) => api.site({}, options));
  }

  /** Findings, phases and dates, the first time that a room wants them. */
  read_rest(): void {
    if (this.#begun) return;
    this.#begun = true;
    this.read_findings();
    this.read_phases();
    this.read_dates();
  }

  /** For the panel, which may stand in a room that asks for none of these. */
  read_findings_once(): void {
    if (!this.#begun && !this.findings.value && !this.findings.loading && !this.findings.problem) this.read_findings();
  }

  read_findings(): void {
    void this.findings.load((options) => api.check({}, options));
  }

  read_phases(): void {
    void this.phases.load((options) => api.tally({ by: ['context.phase'] }, options));
  }

  read_changes(): void {
    void this.changes.load((options) => api.history({}, options));
  }

  /** Dates the contexts, in brief, as a job, so that long work shows its progress and can be stopped. */
  read_dates(): void {
    this.step = null;
    void this.dates.load(() => {
      this.#job = run_job('date', { only_spot: true, brief: true }, (step) => (this.step = step));
      return this.#job.answer;
    });
  }

  stop_dates(): void {
    this.#job?.stop();
  }
}

export const record = new Record();
