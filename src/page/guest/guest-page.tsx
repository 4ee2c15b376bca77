import { type ReactNode, useEffect, useMemo, useReducer, useState } from 'react';
import type { Frame, JobSummary, Visitor } from '../../contract/index.ts';
import { heroesSeen, inChosenOrder } from '../../facts/index.ts';
import { guestLabels, sentence } from '../../words/index.ts';
import { useCall } from '../choices/use-call.ts';
import { fetchVisitor, openStationLink, withdrawAgreement } from '../link/index.ts';
import { LeaveButton } from '../pocket/leave-button.tsx';
import { ShutOut } from '../pocket/shut-out.tsx';
import { AgreeRow } from '../remarks/agree-row.tsx';
import { knownIds } from '../remarks/known-ids.ts';
import { newId } from '../remarks/new-id.ts';
import { keepOwnAgreement } from '../remarks/own-agreements.ts';
import { useOutbox } from '../remarks/use-outbox.ts';
import { clockTime } from '../set/clock.ts';
import { firstState, framesOf, reducePage } from '../state/index.ts';
import '../style/guest.css';
import '../style/remarks.css';
import { GuestPicture } from './guest-picture.tsx';
import { LargePicture } from './large-picture.tsx';
import { LeftLetters } from './left-letters.tsx';
import { StrayLetters } from './stray-letters.tsx';
import { useAgreements } from './use-agreements.ts';

/** The client's page: the pictures that are shared, by shot, to look at. */
export function GuestPage(): ReactNode {
  const [state, dispatch] = useReducer(reducePage, firstState);
  const [visitor, setVisitor] = useState<Visitor | null>(null);
  const [large, setLarge] = useState<string | null>(null);
  const [heard, setHeard] = useState(0);
  useEffect(
    () =>
      openStationLink((action) => {
        if (action.type === 'event' && action.event.type === 'agreements') setHeard((count) => count + 1);
        dispatch(action);
      }, 'guest'),
    [],
  );
  const isLive = state.link.state === 'live';
  useEffect(() => {
    if (!isLive) return undefined;
    const stop = new AbortController();
    // Heard of the job: the order of a shot's pictures may be another.
    void heard;
    fetchVisitor(stop.signal).then(setVisitor, () => undefined);
    return () => stop.abort();
  }, [isLive, heard]);
  const frames = useMemo(() => framesOf(state.frames), [state.frames]);
  const groups = useMemo(() => groupsOf(visitor?.job ?? null, frames), [visitor, frames]);
  const job = visitor?.job?.code ?? null;
  const agreements = useAgreements(job, isLive, heard);
  const known = useMemo(() => knownIds(frames, agreements), [frames, agreements]);
  const outbox = useOutbox(job, isLive, known);
  const { refusal, run } = useCall();
  if (state.link.state === 'shut-out') {
    return (
      <ShutOut>
        <LeftLetters outbox={outbox} />
      </ShutOut>
    );
  }
  const agreeRow = (group: Group, isAlone: boolean): ReactNode => {
    if (job === null || group.id === '') return null;
    const heroes = heroesSeen(group.frames, group.id);
    return (
      <AgreeRow
        key={group.id}
        shot={group}
        heroes={heroes}
        agreements={agreements}
        outbox={outbox}
        isAlone={isAlone}
        names={heroes.map(({ frame }) => state.frames.byId.get(frame)?.name ?? frame)}
        onAgree={(name, again) => {
          const id = newId();
          keepOwnAgreement(id);
          const pictures = heroes.map((picture) => ({ ...picture }));
          outbox.put({ kind: 'agreement', job, shot: group.id, body: { id, name, pictures, again } });
        }}
        onWithdraw={(id) => void run(() => withdrawAgreement(job, id))}
      />
    );
  };
  const order = groups.flatMap((group) => group.frames);
  const shown = order.find(({ id }) => id === large) ?? null;
  return (
    <div className="guest">
      <header className="guest-head">
        <h1>{titleOf(visitor)}</h1>
        <p>{visitor?.job?.client ?? ''}</p>
        {job === null || order.length === 0 ? null : (
          <p>
            <a href={`/api/v1/jobs/${encodeURIComponent(job)}/contact-sheet.pdf`}>
              {guestLabels.contactSheet}
            </a>
          </p>
        )}
        <LeaveButton label={guestLabels.leave} attempt={(leaving) => leaving.catch(() => undefined)} />
        <p role="status">
          {state.link.state === 'lost'
            ? sentence({ code: 'page.connection-lost', args: { since: clockTime(state.link.sinceMs) } })
            : refusal}
        </p>
      </header>
      <main>
        {isLive ? <StrayLetters frames={order} outbox={outbox} /> : null}
        {isLive && order.length === 0 ? <p className="guest-empty">{emptyWords(visitor)}</p> : null}
        {groups.map((group) => (
          <section key={group.id} aria-label={group.name}>
            <h2>{group.name}</h2>
            {agreeRow(group, false)}
            <ul className="guest-pictures">
              {group.frames.map((frame) => (
                <GuestPicture key={frame.id} frame={frame} onOpen={() => setLarge(frame.id)} />
              ))}
            </ul>
          </section>
        ))}
      </main>
      <LargePicture frame={shown} order={order} onShow={setLarge} outbox={outbox}>
        {shown?.mark === 'hero'
          ? groups.filter(({ id }) => id === shown.shot).map((group) => agreeRow(group, true))
          : null}
      </LargePicture>
    </div>
  );
}

/** A job need have no title; a page without a heading says nothing to who hears it. */
function titleOf(visitor: Visitor | null): string {
  const title = visitor?.job?.title.trim() ?? '';
  return title === '' ? guestLabels.title : title;
}

function emptyWords(visitor: Visitor | null): string {
  return visitor !== null && visitor.job === null ? guestLabels.gone : guestLabels.nothingYet;
}

interface Group {
  readonly id: string;
  readonly name: string;
  readonly frames: readonly Frame[];
}

/** The frames under their shots in the job's order, each shot in its own order; what has no shot comes last. */
function groupsOf(job: JobSummary | null, frames: readonly Frame[]): Group[] {
  const shots = job?.shots ?? [];
  const known = new Set(shots.map(({ id }) => id));
  const groups = shots.map(({ id, name, order }) => ({
    id,
    name,
    frames: inChosenOrder(
      frames.filter(({ shot }) => shot === id),
      order ?? [],
    ),
  }));
  const rest = frames.filter(({ shot }) => shot === null || !known.has(shot));
  return [...groups, { id: '', name: guestLabels.without, frames: rest }].filter(
    (group) => group.frames.length > 0,
  );
}
