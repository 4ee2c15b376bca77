import { type ReactNode, useCallback, useEffect, useMemo, useReducer, useState } from 'react';
import type { Mark } from '../../facts/index.ts';
import { markNames, newWordsPhrase, pageLabels, pocketLabels, sentence } from '../../words/index.ts';
import { openStationLink, Refused } from '../link/index.ts';
import { clockTime } from '../set/clock.ts';
import { useWakeLock } from '../set/use-wake-lock.ts';
import { firstState, framesOf, reducePage, shownFrame } from '../state/index.ts';
import { useSound } from '../voice/index.ts';
import '../style/pocket.css';
import '../style/choices.css';
import '../style/sound.css';
import { MoveFrame } from './move-frame.tsx';
import { PocketFrame } from './pocket-frame.tsx';
import { PocketShot } from './pocket-shot.tsx';
import { PocketWords } from './pocket-words.tsx';
import { sendChoice } from './send-choice.ts';
import { ShutOut } from './shut-out.tsx';
import { useNewWords } from './use-new-words.ts';
import { useVibration } from './use-vibration.ts';
import { actOf, type PocketAct, type PocketChoice, wayBack } from './way-back.ts';

const offeredMarks = ['hero', 'select', 'alternate', 'out'] as const satisfies readonly Mark[];

/** A phone on the tripod: the shot now, the last frame with its verdict as large as the phone allows. */
export function PocketPage(): ReactNode {
  const [state, dispatch] = useReducer(reducePage, firstState);
  useEffect(() => openStationLink(dispatch, 'pocket'), []);
  const [trouble, setTrouble] = useState('');
  const frames = useMemo(() => framesOf(state.frames), [state.frames]);
  const frame = useMemo(() => shownFrame(state), [state]);
  const isLive = state.link.state === 'live';
  useWakeLock(isLive);
  const sound = useSound(state);
  const vibration = useVibration(state);
  const code = state.station?.job?.code ?? null;
  const news = useNewWords(frames, code, isLive, ({ name }) => {
    vibration.tellWord();
    sound.tellWord(newWordsPhrase(1, name));
  });
  /** Runs a change; what the station does not take is said until the next one it takes. */
  const attempt = useCallback((change: Promise<unknown>, name = ''): void => {
    change.then(
      () => setTrouble(''),
      (thrown: unknown) => setTrouble(whyNot(thrown, name)),
    );
  }, []);
  const [act, setAct] = useState<PocketAct | null>(null);
  /** Chooses for the frame that is shown; what held before is the way back, once the station has taken it. */
  const choose = (chosen: PocketChoice): void => {
    if (frame === null) return;
    const done = actOf(frame, chosen);
    attempt(
      sendChoice(frame, chosen).then(() => setAct(done)),
      frame.name,
    );
  };
  const back = wayBack(act, frame);
  const takeBack = (): void => {
    if (frame === null || back === null) return;
    attempt(
      sendChoice(frame, back).then(() => setAct(null)),
      frame.name,
    );
  };
  if (state.link.state === 'shut-out') return <ShutOut />;
  const job = state.station?.job ?? null;
  return (
    <main className="pocket" data-link={state.link.state}>
      <h1 className="unseen">{pocketLabels.title}</h1>
      <div className="pocket-top">
        <p className="pocket-notice" role="status">
          {noticeOf(state.link, trouble)}
        </p>
        <PocketWords news={news} frames={frames} job={code} dispatch={dispatch} />
      </div>
      {state.station === null ? (
        <p className="pocket-empty">{sentence({ code: 'page.connecting', args: {} })}</p>
      ) : frame === null ? (
        <p className="pocket-empty">
          {job === null ? pocketLabels.nothingYet : pocketLabels.nothingInJob(job.title)}
        </p>
      ) : (
        <PocketFrame frame={frame} state={state} count={frames.length} dispatch={dispatch} />
      )}
      <section className="pocket-acts" aria-label={pageLabels.mark}>
        {offeredMarks.map((mark) => (
          <button
            key={mark}
            type="button"
            disabled={frame === null}
            aria-pressed={frame?.mark === mark}
            onClick={() => choose({ mark: frame?.mark === mark ? 'none' : mark })}
          >
            {markNames[mark]}
          </button>
        ))}
      </section>
      <MoveFrame
        frame={frame}
        job={job}
        choose={choose}
        takeBack={back === null ? null : takeBack}
        attempt={attempt}
        vibration={vibration}
        sound={sound}
      />
      <PocketShot job={job} frames={frames} attempt={attempt} />
    </main>
  );
}

/** `name`: of the frame that was chosen for. */
function whyNot(thrown: unknown, name: string): string {
  const isMeanwhile = name !== '' && thrown instanceof Refused && thrown.code === 'changed-meanwhile';
  return isMeanwhile ? pocketLabels.meanwhile(name) : pocketLabels.notTaken;
}

function noticeOf(link: ReturnType<typeof reducePage>['link'], trouble: string): string {
  if (link.state === 'lost') {
    return sentence({ code: 'page.connection-lost', args: { since: clockTime(link.sinceMs) } });
  }
  if (link.state === 'not-understood') return sentence({ code: 'page.not-understood', args: {} });
  if (trouble !== '') return trouble;
  return window.isSecureContext ? '' : pocketLabels.clear;
}
