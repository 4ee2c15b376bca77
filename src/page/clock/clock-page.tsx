import { type ReactNode, useEffect, useState } from 'react';
import type { CameraEntry } from '../../contract/index.ts';
import { writeSlate } from '../../slate/index.ts';
import { clockLabels } from '../../words/index.ts';
import { ClockOffer } from '../cameras/clock-offer.tsx';
import { CodeFigure } from '../slates/code-figure.tsx';
import { askStationTime, type StationTime, stationNowMs, surer } from './station-time.ts';
import '../style/clock.css';

/** How long a code stands: five a second, so that a screen and a shutter have the time to show and to see one. */
const refreshMs = 200;
/** The station is asked for its time and for what cameras have sent. */
const askEveryMs = 2000;

/** The station's time as a code that changes five times a second, and what cameras made of it. */
export function ClockPage(): ReactNode {
  const [time, setTime] = useState<StationTime | null>(null);
  const [lost, setLost] = useState(false);
  useEffect(() => {
    const gone = new AbortController();
    const ask = (): void => {
      askStationTime(gone.signal).then(
        (fresh) => {
          setTime((known) => surer(known, fresh));
          setLost(false);
        },
        () => gone.signal.aborted || setLost(true),
      );
    };
    ask();
    const timer = setInterval(ask, askEveryMs);
    return () => {
      clearInterval(timer);
      gone.abort();
    };
  }, []);
  return (
    <main className="clock">
      <div className="clock-words paper">
        <h1>{clockLabels.title}</h1>
        <p>{clockLabels.lead}</p>
        <p role="status">{lost ? clockLabels.notReached : ''}</p>
        {time === null ? null : <Cameras cameras={time.station.cameras} />}
      </div>
      <div className="clock-face">{time === null || lost ? null : <Face time={time} />}</div>
    </main>
  );
}

/** Drawn when the screen draws, so that the time in the code is that of the drawing. */
function Face({ time }: { readonly time: StationTime }): ReactNode {
  const [atMs, setAtMs] = useState(() => stationNowMs(time));
  useEffect(() => {
    let request = 0;
    let drawnMs = 0;
    const draw = (): void => {
      const nowMs = stationNowMs(time);
      if (nowMs - drawnMs >= refreshMs) {
        drawnMs = nowMs;
        setAtMs(nowMs);
      }
      request = requestAnimationFrame(draw);
    };
    request = requestAnimationFrame(draw);
    return () => cancelAnimationFrame(request);
  }, [time]);
  const text = writeSlate({ kind: 'clock', atMs: Math.round(atMs), refreshMs, unsureMs: time.unsureMs });
  return (
    <>
      <CodeFigure text={text} label={clockLabels.code} />
      <p className="clock-time" aria-hidden="true">
        {clockText(atMs)}
      </p>
    </>
  );
}

function clockText(atMs: number): string {
  const at = new Date(atMs);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${two(at.getHours())}:${two(at.getMinutes())}:${two(at.getSeconds())}`;
}

function Cameras({ cameras }: { readonly cameras: readonly CameraEntry[] }): ReactNode {
  const seen = cameras.filter(({ clockSeen }) => clockSeen !== null);
  if (seen.length === 0) return <p>{clockLabels.waiting}</p>;
  return (
    <ul aria-label={clockLabels.cameras}>
      {seen.map((camera) => (
        <li key={camera.name}>
          <ClockOffer camera={camera} />
        </li>
      ))}
    </ul>
  );
}
