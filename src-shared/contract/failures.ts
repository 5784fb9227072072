/** Why a request was not answered. Codes are stable; the sentence is for people. */
export const failureCodes = {
  'unknown-request': 'The host does not know this request.',
  'bad-input': 'Something in this entry cannot be right.',
  'not-found': 'This is no longer in the library.',
  'in-use': 'Something else in the library still needs this.',
  'already-there': 'This is in the library already.',
  'library-newer': 'The library was written by a newer Stillstring. Update this one to open it.',
  'library-damaged': 'The library file is damaged. It was set aside; the last backup can be brought back.',
  'library-busy': 'Another program is holding the library. Close it and try again.',
  'too-large': 'This is too large for one file.',
  'disk-full': 'The disk is full: nothing was changed.',
  'not-reachable': 'The part of Stillstring that keeps the library is not answering. It is being tried again.',
  'not-allowed': 'This page may not use the library. Open Stillstring from its own address.',
  internal: 'Something went wrong inside Stillstring. Nothing was lost; try again.',
} as const;

export type FailureCode = keyof typeof failureCodes;

/** A failure as it crosses the border: plain data, alike on both transports. */
export type Failure = { readonly code: FailureCode; readonly sentence: string };

/** Thrown by a handler for what a user can act on, and by the client for what came back. */
export class HostFailure extends Error {
  readonly code: FailureCode;

  constructor(code: FailureCode, sentence: string = failureCodes[code]) {
    super(sentence);
    this.name = 'HostFailure';
    this.code = code;
  }
}
