import { describe, expect, test, vi } from 'vitest';
import type { DateResponse, JobState } from '../api';
import { ApiError } from '../api';
import { Problem, problem_of } from './client';
import { run_job, type Step } from './jobs';

const kReply = { ok: true, errors: [], warnings: [], provenance: { version: '', inputs: [], settings: {}, seed: null } };
const kDates = { ...kReply, contexts: [], phases: [] } as unknown as DateResponse;

function state(of: JobState['state'], fraction = 0, text = ''): JobState {
  return { ...kReply, id: '7', use_case: 'date', state: of, fraction, text, stale: false, stale_since: null };
}

/** The program as a job sees it; `tell` and `lose` are its events. */
function program(begun: JobState = state('running')) {
  const told: { seen: (state: JobState) => void; lost: () => void } = { seen: () => undefined, lost: () => undefined };
  const close = vi.fn();
  const calls = {
    startJob: vi.fn(async () => begun),
    watchJob: vi.fn((_id: string, seen: (state: JobState) => void, lost?: () => void) => {
      told.seen = seen;
      told.lost = lost ?? (() => undefined);
      return close;
    }),
    jobResult: vi.fn(async () => kDates),
    cancelJob: vi.fn(async () => state('stopped')),
  };
  return { calls: calls as never, spies: calls, told, close };
}
const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

describe('a job', () => {
  test('tells its steps and gives the answer at the end', async () => {
    const { calls, told } = program();
    const steps: Step[] = [];
    const job = run_job('date', { only_spot: true }, (step) => steps.push(step), calls);
    await settle();
    told.seen(state('running', 0.25, 'context 1'));
    told.seen(state('running', 0.75, 'context 3'));
    told.seen(state('done', 1));
    await expect(job.answer).resolves.toBe(kDates);
    expect(steps).toEqual([
      { fraction: 0.25, text: 'context 1' },
      { fraction: 0.75, text: 'context 3' },
    ]);
  });
  test('that is done at once is not watched', async () => {
    const { calls, spies } = program(state('done', 1));
    await expect(run_job('date', {}, () => undefined, calls).answer).resolves.toBe(kDates);
    expect(spies.watchJob).not.toHaveBeenCalled();
  });
  test('stops in the program, closes its events and says so', async () => {
    const { calls, spies, close } = program();
    const job = run_job('date', {}, () => undefined, calls);
    await settle();
    job.stop();
    job.stop();
    await expect(job.answer).rejects.toMatchObject({ code: 'stopped' });
    expect(spies.cancelJob).toHaveBeenCalledExactlyOnceWith('7');
    expect(close).toHaveBeenCalledOnce();
    expect(spies.jobResult).not.toHaveBeenCalled();
  });
  test('stopped before it began is cancelled as soon as it has a number', async () => {
    const { calls, spies } = program();
    const job = run_job('date', {}, () => undefined, calls);
    job.stop();
    await expect(job.answer).rejects.toMatchObject({ code: 'stopped' });
    expect(spies.cancelJob).toHaveBeenCalledWith('7');
    expect(spies.watchJob).not.toHaveBeenCalled();
  });
  test('whose events are lost says that the program stopped reporting', async () => {
    const { calls, told } = program();
    const job = run_job('date', {}, () => undefined, calls);
    await settle();
    told.lost();
    await expect(job.answer).rejects.toMatchObject({ code: 'lost' });
  });
});

describe('a failure', () => {
  const where = { file: null, sheet: null, row: null, line: null, column: null, id: null };
  test('of the data is told in the words of the program', () => {
    const error = new ApiError(422, [{ code: 'loop', message: 'the relations run in a loop', where, hint: 'look at 1028' }]);
    expect(problem_of(error)).toMatchObject({ code: 'loop', message: 'the relations run in a loop', hint: 'look at 1028' });
  });
  test('without words still says what to do', () => {
    expect(problem_of(new ApiError(401, [])).hint).toMatch(/open the address/);
    expect(problem_of(new ApiError(502, []))).toMatchObject({ message: 'the program answered with 502' });
  });
  test('to reach the program says that what was recorded is safe', () => {
    expect(problem_of(new TypeError('Failed to fetch'))).toMatchObject({ code: 'no_program' });
  });
  test('that is a problem already stays as it is', () => {
    const problem = new Problem('stopped', 'stopped', '');
    expect(problem_of(problem)).toBe(problem);
  });
});
