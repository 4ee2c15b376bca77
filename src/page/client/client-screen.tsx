import { type ReactNode, useEffect, useState } from 'react';
import { clientLabels, shotName } from '../../words/index.ts';
import { useCall } from '../choices/use-call.ts';
import { showClient } from '../link/index.ts';
import { PictureArea } from '../set/picture-area.tsx';
import { usePlacing } from '../set/use-placing.ts';
import { usePresentation } from '../set/use-presentation.ts';
import { useWakeLock } from '../set/use-wake-lock.ts';
import { useZoom } from '../set/use-zoom.ts';
import { jobOf, type PageState } from '../state/index.ts';
import type { SizeCssPx } from '../viewport/index.ts';
import { ClientControls } from './client-controls.tsx';
import { clientFrame, screenNow } from './client-frame.ts';
import { maskOf } from './delivery-cut.ts';
import { DeliveryMask } from './delivery-mask.tsx';
import { subjectShown } from './subject-shown.ts';
import '../style/client.css';

interface ClientScreenProps {
  readonly state: PageState;
  /** The page this device came from. */
  readonly back: { readonly href: string; readonly label: string };
}

/** The screen that faces the client: the picture from edge to edge, what it is of, and nothing that judges it or sounds. */
export function ClientScreen(props: ClientScreenProps): ReactNode {
  const { job } = screenNow(props.state);
  // Nothing of one client's is left standing while the next one's picture is loaded.
  return <ScreenOfJob key={job} {...props} />;
}

function ScreenOfJob({ state, back }: ClientScreenProps): ReactNode {
  const [free, setFree] = useState<SizeCssPx | null>(null);
  const screen = screenNow(state);
  const presentation = usePresentation(clientFrame(state), state.frames, free);
  const zoom = useZoom();
  const placing = usePlacing(presentation);
  const awake = useAwake();
  const { refusal, run } = useCall();
  useWakeLock(true);
  const frame = presentation?.frame ?? null;
  const picture = presentation?.picture ?? null;
  const subject = subjectShown(frame, placing);
  const isHeld = screen.frame !== null && frame?.id === screen.frame;
  return (
    <main
      className="client"
      data-surround={state.dimSurround ? 'dim' : 'grey'}
      data-held={isHeld}
      data-awake={awake}
    >
      <h1 className="unseen">{clientLabels.title}</h1>
      <PictureArea presentation={presentation} free={free} onFree={setFree} zoom={zoom}>
        {picture === null || free === null ? null : (
          <DeliveryMask
            mask={maskOf(screen.crop, screen.copySpace, picture.full, subject)}
            picture={picture.full}
            free={free}
            zoom={zoom}
          />
        )}
        {frame === null && state.link.state === 'live' ? (
          <p className="client-nothing paper">{clientLabels.nothing}</p>
        ) : null}
      </PictureArea>
      {frame === null ? null : (
        <p className="client-words paper">
          <span>{nameOf(state, frame)}</span>
          <span>{frame.counter === null ? frame.name : String(frame.counter).padStart(4, '0')}</span>
          {state.link.state === 'lost' ? <span>{clientLabels.lost}</span> : null}
        </p>
      )}
      <ClientControls
        awake={awake}
        screen={screen}
        job={jobOf(state.jobs, screen.job)}
        picture={picture?.full ?? null}
        subject={subject}
        back={back}
        refusal={refusal}
        onChange={(change) => void run(() => showClient({ job: screen.job, ...change }))}
      />
    </main>
  );
}

function nameOf({ jobs }: PageState, { job, shot }: { job: string; shot: string | null }): string {
  const shots = jobOf(jobs, job)?.shots ?? [];
  const own = shots.find(({ id }) => id === shot);
  return own === undefined ? '' : shotName(own, shots);
}

/** So long after the last movement the controls stay. */
const restMs = 4_000;

/** Whether a hand moved a moment ago. */
function useAwake(): boolean {
  const [awake, setAwake] = useState(false);
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    const wake = (): void => {
      setAwake(true);
      clearTimeout(timer);
      timer = setTimeout(() => setAwake(false), restMs);
    };
    const kinds = ['pointermove', 'pointerdown', 'keydown'] as const;
    for (const kind of kinds) addEventListener(kind, wake);
    return () => {
      clearTimeout(timer);
      for (const kind of kinds) removeEventListener(kind, wake);
    };
  }, []);
  return awake;
}
