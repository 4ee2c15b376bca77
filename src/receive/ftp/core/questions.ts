import type { EpochMs } from '../../../base/index.ts';
import type { ArrivalEnd, ArrivalOutcome, OpenHow } from '../../core/camera-folder.ts';
import type { FolderAnswer, FolderQuestions } from '../../core/folder-questions.ts';
import type { Reply } from './reply.ts';

/**
 * Everything a command may ask of the world and what it gets back: question → [request, answer]. The session asks one
 * thing at a time; the shell answers each with a `done` event, always, also after an interruption.
 */
export interface Questions extends FolderQuestions {
  /**
   * Says `ready` in clear and then turns the control connection to TLS; what the client sent before the handshake is
   * thrown away. `busy`: nothing was said or done, too many handshakes are under way.
   */
  secure: [{ readonly ready: Reply }, 'secured' | 'failed' | 'busy'];
  /** From the next data connection on: whether it is to be protected. */
  protect: [{ readonly isPrivate: boolean }, null];
  'log-in': [{ readonly user: string; readonly password: string }, LogInAnswer];
  /** Lets time pass until `ms` after `sinceMs`; the answer says nothing. */
  pause: [{ readonly ms: number; readonly sinceMs: EpochMs }, null];
  /** Counts one change of the camera's folder, and waits where there were too many. */
  spend: [Record<never, never>, null];

  /** Opens a passive listener in place of any earlier one; null where no port is free. */
  listen: [Record<never, never>, { readonly port: number } | null];
  /** Active mode: this port of the client is dialled once a transfer wants it, in place of any earlier way. */
  aim: [{ readonly port: number }, null];
  /** Waits for the data connection, or makes it. False after an interruption, and where the client cannot be dialled. */
  'await-data': [Record<never, never>, boolean];
  /** The TLS handshake of a protected data connection that is there. */
  'secure-data': [Record<never, never>, 'secured' | 'failed' | 'not-resumed'];
  /** Announces a file; the shell holds the arrival until `finish`. */
  open: [{ readonly path: string; readonly how: OpenHow }, FolderAnswer<{ readonly offsetBytes: number }>];
  /** Moves bytes from the data connection into the arrival until one of them ends. */
  receive: [Record<never, never>, { readonly end: ArrivalEnd; readonly bytes: number }];
  finish: [{ readonly end: ArrivalEnd }, ArrivalOutcome];
  /** Writes to the data connection and closes it. False where it broke or was interrupted. */
  send: [{ readonly pieces: Iterable<Uint8Array> }, boolean];
}

export type QuestionName = keyof Questions;

/** One question on its way out. */
export type Question = {
  [Name in QuestionName]: { readonly name: Name; readonly request: Questions[Name][0] };
}[QuestionName];

/** `camera` is null where nobody was admitted. */
export interface LogInAnswer {
  readonly camera: string | null;
  /** Wrong log-ins of this address within the last minute, this one included. */
  readonly failures: number;
  /** The keeper has told the camera's log why it was refused: nothing more is said of it. */
  readonly isTold?: boolean;
}

/** A command at work: yields questions, is resumed with their answers, returns its last reply. */
export type Asking<Result> = Generator<Question, Result, unknown>;

/** Asks one question and gives its answer, with the type that belongs to it. */
export function* ask<Name extends QuestionName>(
  name: Name,
  request: Questions[Name][0],
): Asking<Questions[Name][1]> {
  // The pair is one row of Questions by the signature; TypeScript does not see that a row stays together.
  const answer = yield { name, request } as Question;
  // The session resumes a command only with the answer to the question it yielded.
  return answer as Questions[Name][1];
}

/** Asks for a change of the camera's folder, no faster than the camera may make them. */
export function* askChange<Name extends ChangeName>(
  name: Name,
  request: Questions[Name][0],
): Asking<Questions[Name][1]> {
  yield* ask('spend', {});
  return yield* ask(name, request);
}

type ChangeName = 'make-folder' | 'remove-folder' | 'rename' | 'hide' | 'set-modified' | 'open';
