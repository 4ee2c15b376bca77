import { type FormEvent, type ReactNode, useState } from 'react';
import type { Strike, StrikeCamera } from '../../contract/index.ts';
import { strikeLabels } from '../../words/index.ts';
import { sayLastNumber } from '../link/index.ts';
import { dayAndTime } from '../set/clock.ts';
import type { StrikeSeen } from './use-strike.ts';

interface CamerasProps extends Pick<StrikeSeen, 'say'> {
  readonly check: Strike;
}

/** The numbers of each camera: the last one here, and the last one that the camera itself shows. */
export function StrikeCameras({ check, say }: CamerasProps): ReactNode {
  if (check.cameras.length === 0) return null;
  return (
    <section>
      <h2>{strikeLabels.cameras}</h2>
      <ul className="strike-cameras">
        {check.cameras.map((camera) => (
          <li key={`${camera.camera} ${camera.newest === null ? '-' : camera.prefix}`}>
            <h3>{camera.camera}</h3>
            <p>
              {strikeLabels.framesHere(camera.frames)}
              {', '}
              {camera.newest === null ? strikeLabels.noNumbers : strikeLabels.newest(camera.newest.name)}
            </p>
            {camera.newest === null ? null : <LastNumber job={check.job} camera={camera} say={say} />}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The id of the field where a camera's last number is said. */
export function numberField({ camera, prefix }: Pick<StrikeCamera, 'camera' | 'prefix'>): string {
  return `last-number-${camera}-${prefix}`;
}

function saidHow({ how, by, at }: NonNullable<StrikeCamera['said']>): string {
  const when = dayAndTime(Date.parse(at));
  return how === 'card' ? strikeLabels.saidByCard(when) : strikeLabels.saidBy(by, when);
}

interface LastNumberProps extends Pick<CamerasProps, 'say'> {
  readonly job: string;
  readonly camera: StrikeCamera;
}

function LastNumber({ job, camera, say }: LastNumberProps): ReactNode {
  const id = numberField(camera);
  const { said } = camera;
  const [typed, setTyped] = useState('');
  const counter = /^\d{1,4}$/.test(typed.trim()) ? Number(typed) : 0;
  const save = (event: FormEvent): void => {
    event.preventDefault();
    void say(() => sayLastNumber(job, camera, counter)).then((taken) => taken && setTyped(''));
  };
  return (
    <>
      {said === null ? null : (
        <p>
          {strikeLabels.lastOnCamera}: <strong>{String(said.counter).padStart(4, '0')}</strong> (
          {saidHow(said)}){' '}
          {said.how === 'card' ? null : (
            <button
              type="button"
              className="strike-screen"
              onClick={() => void say(() => sayLastNumber(job, camera, null))}
            >
              {strikeLabels.takeBack}
              <span className="unseen">: {camera.camera}</span>
            </button>
          )}
        </p>
      )}
      <form className="strike-number strike-screen" onSubmit={save}>
        <label htmlFor={id}>{strikeLabels.lastOnCamera}</label>
        <input
          id={id}
          value={typed}
          inputMode="numeric"
          maxLength={4}
          size={6}
          placeholder={camera.newest === null ? '' : String(camera.newest.counter).padStart(4, '0')}
          aria-describedby={`${id}-help`}
          onChange={(event) => setTyped(event.target.value)}
        />
        <button type="submit" className="press" disabled={counter === 0}>
          {strikeLabels.save}
        </button>
        <small id={`${id}-help`}>{strikeLabels.lastNumberHelp}</small>
      </form>
    </>
  );
}
