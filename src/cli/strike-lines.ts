import type { Strike } from '../contract/index.ts';
import { strikeCosts } from '../facts/index.ts';
import { sentence, strikeCostNames, strikeLabels } from '../words/index.ts';
import { dayAndTime } from './day-and-time.ts';

/** The check for a terminal: the answer first, then what is missing, worst first, then what was accepted and signed. */
export function strikeLines({ ready, open, accepted, signed }: Strike): string[] {
  return [
    ready ? strikeLabels.ready : strikeLabels.notReady(open.length),
    ...strikeCosts.flatMap((cost) => {
      const lines = open.filter((line) => line.cost === cost);
      if (lines.length === 0) return [];
      return [
        `${strikeCostNames[cost]}:`,
        ...lines.map(
          ({ finding, because }) =>
            `  ${sentence(finding)}${because === null ? '' : ` ${sentence(because)}`}`,
        ),
      ];
    }),
    ...(accepted.length === 0 ? [] : [`${strikeLabels.acceptedTitle}:`]),
    ...accepted.map(({ finding, accepted: by }) => {
      const who = by === null ? '' : ` ${strikeLabels.acceptedBy(by.name, by.reason)}`;
      return `  ${sentence(finding)}${who}`;
    }),
    ...(open.some(({ finding }) => finding.code === 'strike.number-wanted') ? [strikeLabels.sayLast] : []),
    ...signatureLines(signed),
    strikeLabels.caution,
  ];
}

function signatureLines(signed: Strike['signed']): string[] {
  if (signed === null) return [];
  const when = dayAndTime(Date.parse(signed.at));
  return [
    signed.stands ? strikeLabels.signedBy(signed.name, when) : strikeLabels.reopened(signed.name, when),
  ];
}
