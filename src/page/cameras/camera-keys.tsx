import { type FormEvent, type ReactNode, useId, useState } from 'react';
import type { CameraEntry, CameraKey, CameraPatch } from '../../contract/index.ts';
import { keyKindNames, pageLabels } from '../../words/index.ts';

interface CameraKeysProps {
  readonly camera: CameraEntry;
  /** Resolves to whether the station took it. */
  readonly change: (patch: CameraPatch) => Promise<boolean>;
}

/** The public keys by which a camera may come in by SFTP, told by fingerprint; more are added, old ones removed. */
export function CameraKeys({ camera, change }: CameraKeysProps): ReactNode {
  const id = useId();
  const [text, setText] = useState('');
  if (!camera.protocols.includes('sftp') && camera.keys.length === 0) return null;
  const add = (event: FormEvent): void => {
    event.preventDefault();
    change({ addKeys: [text] }).then((isTaken) => {
      // A private key is not left lying about in a field.
      if (isTaken || text.includes('PRIVATE KEY')) setText((now) => (now === text ? '' : now));
    });
  };
  return (
    <fieldset className="camera-field camera-keys">
      <legend>{pageLabels.keysForSftp}</legend>
      <div>
        {camera.keys.length === 0 ? null : (
          <ul>
            {camera.keys.map((key) => (
              <li key={key.fingerprint}>
                <span className="fingerprint">{key.fingerprint}</span>
                <span>{wordsOf(key)}</span>
                <button
                  type="button"
                  aria-label={`${pageLabels.removeKey} ${key.comment} ${key.fingerprint}`}
                  onClick={() => void change({ dropKeys: [key.fingerprint] })}
                >
                  {pageLabels.removeKey}
                </button>
              </li>
            ))}
          </ul>
        )}
        <form onSubmit={add}>
          <label htmlFor={id}>{pageLabels.oneMoreKey}</label>
          <textarea
            id={id}
            value={text}
            rows={2}
            placeholder={pageLabels.keyExample}
            aria-describedby={`${id}-help`}
            spellCheck={false}
            autoComplete="off"
            onChange={(event) => setText(event.target.value)}
          />
          <button type="submit" disabled={text.trim() === ''}>
            {pageLabels.addKey}
          </button>
          <small id={`${id}-help`}>{pageLabels.keyGiven}</small>
        </form>
      </div>
    </fieldset>
  );
}

function wordsOf({ kind, comment }: CameraKey): string {
  return [keyKindNames[kind], comment].filter((word) => word !== '').join(', ');
}
