import { ApiError } from '../api';

/** What went wrong in words, and the way out. */
export class Problem extends Error {
  readonly code: string;
  readonly hint: string;

  constructor(code: string, message: string, hint: string) {
    super(message);
    this.code = code;
    this.hint = hint;
  }
}

const kByStatus: Record<number, [string, string]> = {
  401: [
    'this browser has no leave to read the record',
    'open the address that the program printed when it started; where it was used already, start the program again',
  ],
  403: ['the program refused a request from this page', 'open the address that the program printed'],
  404: ['the program does not know this request', 'the page and the program are of different versions: load the page again'],
  429: ['too many requests at once', 'wait a moment, then try again'],
};

let signed_out = (): void => {};
/** What is done when the program says that nobody is signed in any more. */
export function when_signed_out(then: () => void): void {
  signed_out = then;
}

/** Any failure of a call as a problem that a reader can act on. */
export function problem_of(error: unknown): Problem {
  if (error instanceof Problem) return error;
  if (error instanceof ApiError) {
    const first = error.errors[0];
    if (first?.code === 'not_signed_in') signed_out();
    const [message, hint] = kByStatus[error.status] ?? [
      `the program answered with ${error.status}`,
      'look at the window in which the program runs',
    ];
    return new Problem(first?.code ?? `http_${error.status}`, first?.message || message, first?.hint || hint);
  }
  if (error instanceof TypeError) {
    return new Problem(
      'no_program',
      'the program does not answer',
      'start it again in its window, then try again; what was recorded is safe in the store',
    );
  }
  return new Problem('page', `the page failed: ${String(error)}`, 'load the page again');
}
