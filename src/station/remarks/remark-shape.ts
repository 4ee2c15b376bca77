import { epochMsToRfc3339 } from '../../base/index.ts';
import type * as contract from '../../contract/index.ts';
import type { GivenAgreement, Remark, Speaker } from '../../facts/index.ts';

/** The contract's remark. */
export function remarkShape({ id, at, text, inside, by, atMs, settled, answers }: Remark): contract.Remark {
  return {
    id,
    point: at === null ? null : { x: at.x, y: at.y },
    text,
    inside,
    by: speakerShape(by),
    at: epochMsToRfc3339(atMs),
    settled: settled === null ? null : { by: speakerShape(settled.by), at: epochMsToRfc3339(settled.atMs) },
    answers: answers.map((answer) => ({
      id: answer.id,
      text: answer.text,
      by: speakerShape(answer.by),
      at: epochMsToRfc3339(answer.atMs),
    })),
  };
}

/** The contract's agreement. */
export function agreementShape({ id, shot, pictures, by, atMs }: GivenAgreement): contract.Agreement {
  return {
    id,
    shot,
    pictures: pictures.map((picture) => ({ ...picture })),
    by: speakerShape(by),
    at: epochMsToRfc3339(atMs),
  };
}

function speakerShape({ name, from, link }: Speaker): contract.Speaker {
  return { name, from, link };
}
