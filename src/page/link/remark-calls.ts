import {
  type Agreement,
  agreementList,
  type NewAgreement,
  type NewAnswer,
  type NewRemark,
} from '../../contract/index.ts';
import { ask, parsed, sendBody } from './station-call.ts';

/** Pins a remark to a frame; what changed comes as an event. Rejects with {@link Refused}. */
export async function sendRemark(frame: string, remark: NewRemark): Promise<void> {
  await sendBody('POST', `${frameAddress(frame)}/remarks`, remark);
}

export async function sendAnswer(frame: string, remark: string, answer: NewAnswer): Promise<void> {
  await sendBody('POST', `${frameAddress(frame)}/remarks/${encodeURIComponent(remark)}/answers`, answer);
}

export async function settleRemark(
  frame: string,
  remark: string,
  settled: boolean,
  name: string | undefined,
): Promise<void> {
  const body = name === undefined ? { settled } : { settled, name };
  await sendBody('PUT', `${frameAddress(frame)}/remarks/${encodeURIComponent(remark)}/settled`, body);
}

/** Who agreed to which shot of a job. */
export async function fetchAgreements(job: string, signal: AbortSignal): Promise<readonly Agreement[]> {
  return parsed(agreementList, await ask(`${jobAddress(job)}/agreements`, signal)).agreements;
}

export async function sendAgreement(job: string, shot: string, agreement: NewAgreement): Promise<void> {
  await sendBody('POST', `${jobAddress(job)}/shots/${encodeURIComponent(shot)}/agreements`, agreement);
}

export async function withdrawAgreement(job: string, agreement: string): Promise<void> {
  await sendBody('DELETE', `${jobAddress(job)}/agreements/${encodeURIComponent(agreement)}`, null);
}

function frameAddress(frame: string): string {
  return `/api/v1/frames/${encodeURIComponent(frame)}`;
}

function jobAddress(job: string): string {
  return `/api/v1/jobs/${encodeURIComponent(job)}`;
}
