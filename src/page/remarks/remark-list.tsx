import type { ReactNode } from 'react';
import { pinNames, remarkLabels } from '../../words/index.ts';
import { RemarkThread } from './remark-thread.tsx';
import type { SaidRemark } from './said-remarks.ts';
import type { OutboxOfPage } from './use-outbox.ts';

interface RemarkListProps {
  readonly remarks: readonly SaidRemark[];
  readonly chosen: string | null;
  readonly outbox: OutboxOfPage;
  readonly onAnswer: (remark: string, text: string, name: string) => void;
  /** Null for who settles none. */
  readonly onSettle: ((remark: string, settled: boolean) => void) | null;
}

/** What was said of a picture, the oldest first, each with its answers; the operator's card and the guest's panel have it. */
export function RemarkList({ remarks, chosen, outbox, onAnswer, onSettle }: RemarkListProps): ReactNode {
  const names = pinNames(remarks);
  return (
    <>
      {remarks.length === 0 ? <p className="remark-none">{remarkLabels.none}</p> : null}
      <ol>
        {remarks.map((remark) => (
          <RemarkThread
            key={remark.id}
            remark={remark}
            name={names.get(remark.id) ?? ''}
            isChosen={chosen === remark.id}
            outbox={outbox}
            onAnswer={(text, name) => onAnswer(remark.id, text, name)}
            onSettle={onSettle === null ? null : (settled) => onSettle(remark.id, settled)}
          />
        ))}
      </ol>
    </>
  );
}
