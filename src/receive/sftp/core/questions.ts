import type { ArrivalEnd, ArrivalOutcome, OpenHow } from '../../core/camera-folder.ts';
import type { FolderAnswer, FolderQuestions } from '../../core/folder-questions.ts';

/**
 * Everything a request may ask of the world and what it gets back: question → [request, answer]. Several are open at a
 * time, one for each lane of the session; the shell answers each once, always. A file is named by its handle.
 */
export interface Questions extends FolderQuestions {
  /** Announces a file; the shell holds its arrival until `finish`. */
  open: [
    { readonly handle: number; readonly path: string; readonly how: OpenHow },
    FolderAnswer<{ readonly offsetBytes: number }>,
  ];
  /** Makes durable what has come of a file. */
  sync: [{ readonly handle: number }, FolderAnswer<null>];
  finish: [{ readonly handle: number; readonly end: ArrivalEnd }, ArrivalOutcome];
}

export type QuestionName = keyof Questions;

/** One question on its way out. */
export type Question = {
  [Name in QuestionName]: { readonly name: Name; readonly request: Questions[Name][0] };
}[QuestionName];

/** A request at work: yields questions, is resumed with their answers, returns what it comes to. */
export type Asking<Result> = Generator<Question, Result, unknown>;

/** Asks one question and gives its answer, with the type that belongs to it. */
export function* ask<Name extends QuestionName>(
  name: Name,
  request: Questions[Name][0],
): Asking<Questions[Name][1]> {
  // The pair is one row of Questions by the signature; TypeScript does not see that a row stays together.
  const answer = yield { name, request } as Question;
  // The session resumes a request only with the answer to the question it yielded.
  return answer as Questions[Name][1];
}
