import { type Dispatch, type ReactNode, useMemo, useState } from 'react';
import type { Frame } from '../../contract/index.ts';
import { heroesSeen } from '../../facts/index.ts';
import { agreementLabels, remarkLabels } from '../../words/index.ts';
import { keptName } from '../choices/kept-name.ts';
import { useCall } from '../choices/use-call.ts';
import { settleRemark, withdrawAgreement } from '../link/index.ts';
import { CardDialog } from '../set/card-dialog.tsx';
import { jobOf, type PageAction, type PageState } from '../state/index.ts';
import { GivenWords } from './agree-row.tsx';
import { knownIds } from './known-ids.ts';
import { newId } from './new-id.ts';
import { OpenRemarks } from './open-remarks.tsx';
import { RemarkList } from './remark-list.tsx';
import { saidRemarks } from './said-remarks.ts';
import { SayForm } from './say-form.tsx';
import { useOutbox } from './use-outbox.ts';
import type { Remarking } from './use-remarking.ts';

interface RemarkCardProps {
  readonly state: PageState;
  readonly frame: Frame | null;
  readonly frames: readonly Frame[];
  readonly remarking: Remarking;
  readonly dispatch: Dispatch<PageAction>;
}

/** What was said of the frame that is shown, and what is open elsewhere in its job. */
export function RemarkCard({ state, frame, frames, remarking, dispatch }: RemarkCardProps): ReactNode {
  return (
    <CardDialog
      title={frame === null ? remarkLabels.title : `${remarkLabels.title}: ${frame.name}`}
      open={state.card === 'remarks' && !remarking.isPicking}
      onClose={() => {
        if (remarking.isPicking) return;
        remarking.leave();
        dispatch({ type: 'card-closed', card: 'remarks' });
      }}
    >
      <div className="choices remark-card">
        {frame === null ? null : (
          <OfFrame key={frame.id} state={state} frame={frame} frames={frames} remarking={remarking} />
        )}
        <OpenRemarks frames={frames} job={frame?.job ?? null} shown={frame?.id ?? null} dispatch={dispatch} />
      </div>
    </CardDialog>
  );
}

type OfFrameProps = Omit<RemarkCardProps, 'frame' | 'dispatch'> & { readonly frame: Frame };

function OfFrame({ state, frame, frames, remarking }: OfFrameProps): ReactNode {
  const { refusal, run } = useCall();
  const known = useMemo(() => knownIds([frame], []), [frame]);
  const outbox = useOutbox(frame.job, state.link.state === 'live', known);
  const [forGuests, setForGuests] = useState(false);
  const remarks = saidRemarks(frame, outbox.letters);
  const about = { job: frame.job, frame: frame.id };
  const { draft } = remarking;
  return (
    <>
      <p role="status" className="refusal">
        {refusal}
      </p>
      <ShotWords state={state} frame={frame} frames={frames} run={run} />
      {draft === null ? (
        <p className="say-acts">
          <button type="button" disabled={frame.picture.state !== 'rendered'} onClick={remarking.pick}>
            {remarkLabels.add}
          </button>
          <button type="button" onClick={() => remarking.write(null)}>
            {remarkLabels.onWhole}
          </button>
        </p>
      ) : (
        <SayForm
          label={draft.point === null ? remarkLabels.onWhole : remarkLabels.onPoint}
          takesFocus
          onSay={(text, name) => {
            const body = { id: newId(), name, point: draft.point, text, inside: !forGuests };
            outbox.put({ kind: 'remark', ...about, body });
            remarking.leave();
          }}
          onLeave={remarking.leave}
        >
          <label className="tick">
            <input
              type="checkbox"
              checked={forGuests}
              onChange={(event) => setForGuests(event.target.checked)}
            />
            {remarkLabels.forGuests}
          </label>
        </SayForm>
      )}
      <RemarkList
        remarks={remarks}
        chosen={remarking.chosen}
        outbox={outbox}
        onAnswer={(remark, text, name) =>
          outbox.put({ kind: 'answer', ...about, remark, body: { id: newId(), name, text } })
        }
        onSettle={(remark, settled) =>
          void run(() => settleRemark(frame.id, remark, settled, keptName() || undefined))
        }
      />
    </>
  );
}

interface ShotWordsProps {
  readonly state: PageState;
  readonly frame: Frame;
  readonly frames: readonly Frame[];
  readonly run: (call: () => Promise<unknown>) => Promise<boolean>;
}

/** Who agreed to the shot of the frame, and whether that is still worth anything. */
function ShotWords({ state, frame, frames, run }: ShotWordsProps): ReactNode {
  const agreements = jobOf(state.jobs, frame.job)?.agreements ?? [];
  const { job, shot } = frame;
  const given = agreements.filter((each) => each.shot === shot);
  if (shot === null || given.length === 0) return null;
  const heroes = heroesSeen(
    frames.filter((each) => each.job === job),
    shot,
  );
  return (
    <div className="agree">
      <ul>
        {given.map((agreement) => (
          <li key={agreement.id}>
            <GivenWords agreement={agreement} heroes={heroes} />
            <button type="button" onClick={() => void run(() => withdrawAgreement(job, agreement.id))}>
              {agreementLabels.withdraw}
              <span className="unseen"> {agreement.by.name}</span>
            </button>
          </li>
        ))}
      </ul>
    </div>
  );
}
