import { type ReactNode, useEffect, useRef } from 'react';
import type { SharePoint } from '../../facts/index.ts';
import { remarkLabels } from '../../words/index.ts';
import { RemarkList } from '../remarks/remark-list.tsx';
import type { SaidRemark } from '../remarks/said-remarks.ts';
import { SayForm } from '../remarks/say-form.tsx';
import type { OutboxOfPage } from '../remarks/use-outbox.ts';
import type { Draft } from './begun-drafts.ts';

interface RemarkPanelProps {
  readonly remarks: readonly SaidRemark[];
  readonly chosen: string | null;
  readonly outbox: OutboxOfPage;
  readonly draft: Draft | null;
  /** It is about this now; a remark is begun where none was. */
  readonly onDraft: (point: SharePoint | null) => void;
  readonly onText: (text: string) => void;
  readonly onLeave: () => void;
  readonly onRemark: (text: string, name: string) => void;
  readonly onAnswer: (remark: string, text: string, name: string) => void;
  readonly children: ReactNode;
}

/** What was said of the picture, and the place to say more. */
export function RemarkPanel(props: RemarkPanelProps): ReactNode {
  const { remarks, chosen, outbox, draft, onDraft, onText, onLeave, onRemark, onAnswer, children } = props;
  const panel = useRef<HTMLElement>(null);
  useEffect(() => {
    if (chosen === null) return;
    panel.current
      ?.querySelector(`[data-remark="${CSS.escape(chosen)}"]`)
      ?.scrollIntoView({ block: 'nearest' });
  }, [chosen]);
  return (
    <section ref={panel} className="remark-panel" aria-label={remarkLabels.title}>
      {draft === null ? children : null}
      {draft === null ? (
        <div className="remark-add">
          <button type="button" onClick={() => onDraft({ x: 0.5, y: 0.5 })}>
            {remarkLabels.add}
          </button>
          <small>{remarkLabels.addHelp}</small>
        </div>
      ) : (
        <SayForm
          label={remarkLabels.text}
          takesFocus
          onSay={onRemark}
          onLeave={onLeave}
          begun={draft.text}
          onText={onText}
        >
          <p className="remark-about">
            {draft.point === null ? remarkLabels.onWhole : remarkLabels.onPoint}
            {draft.point === null ? null : (
              <button type="button" onClick={() => onDraft(null)}>
                {remarkLabels.whole}
              </button>
            )}
          </p>
        </SayForm>
      )}
      <RemarkList remarks={remarks} chosen={chosen} outbox={outbox} onAnswer={onAnswer} onSettle={null} />
    </section>
  );
}
