import { type FormEvent, type ReactNode, useId, useState } from 'react';
import { pageLabels } from '../../words/index.ts';
import { addCamera } from '../link/index.ts';

/** One more camera, with a log-in of its own that stands on the sheet as soon as the station has made it. */
export function AddCamera(): ReactNode {
  const id = useId();
  const [name, setName] = useState('');
  const [answer, setAnswer] = useState('');
  const add = (event: FormEvent): void => {
    event.preventDefault();
    // At once: what is typed before the station answers is another camera's name.
    setName('');
    addCamera(name.trim()).then(
      () => setAnswer(''),
      (thrown: unknown) => {
        setAnswer(thrown instanceof Error ? thrown.message : pageLabels.notTaken);
        setName((now) => (now === '' ? name : now));
      },
    );
  };
  return (
    <form className="add-camera" onSubmit={add}>
      <label htmlFor={id}>{pageLabels.anotherCamera}</label>
      <input
        id={id}
        value={name}
        placeholder={pageLabels.anotherCameraExample}
        maxLength={40}
        spellCheck={false}
        onChange={(event) => setName(event.target.value)}
      />
      <button type="submit" disabled={name.trim() === ''}>
        {pageLabels.addCamera}
      </button>
      <p role="status">{answer}</p>
    </form>
  );
}
