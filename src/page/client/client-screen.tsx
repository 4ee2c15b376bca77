import { type ReactNode, useEffect, useState } from 'react';
import { clientLabels, shotName } from '../../words/index.ts';
import { PictureArea } from '../set/picture-area.tsx';
import { useDevicePixelRatio } from '../set/use-media.ts';
import { usePresentation } from '../set/use-presentation.ts';
import { useWakeLock } from '../set/use-wake-lock.ts';
import { useZoom } from '../set/use-zoom.ts';
import { jobOf, type PageState } from '../state/index.ts';
import type { SizeCssPx } from '../viewport/index.ts';
import { showToClient, useClientFrame } from './client-choice.ts';
import { ClientControls } from './client-controls.tsx';
import { clientFrame } from './client-frame.ts';
import { DeliveryMask } from './delivery-mask.tsx';
import { shapes, useMaskChoice } from './mask-choice.ts';
import '../style/client.css';

/** The screen that faces the client: the picture from edge to edge, what it is of, and nothing that judges it or sounds. */
export function ClientScreen({ state }: { readonly state: PageState }): ReactNode {
  const [free, setFree] = useState<SizeCssPx | null>(null);
  const held = useClientFrame();
  const wanted = clientFrame(state, held);
  const presentation = usePresentation(wanted, state.frames, free);
  const zoom = useZoom();
  const unit = useDevicePixelRatio();
  const [mask, setMask] = useMaskChoice();
  const awake = useAwake();
  useWakeLock(true);
  const frame = presentation?.frame ?? null;
  const picture = presentation?.picture ?? null;
  const isHeld = held !== null && frame?.id === held;
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
            shape={shapes[mask.shape] ?? null}
            copySpace={mask.copySpace}
            picture={picture.full}
            free={free}
            devicePixelRatio={unit}
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
        mask={mask}
        onMask={setMask}
        onFollow={held === null ? null : () => showToClient(null)}
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
