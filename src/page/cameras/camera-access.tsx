import { type ReactNode, useId, useState } from 'react';
import type { CameraEntry, CameraPatch } from '../../contract/index.ts';
import { doorNames, pageLabels } from '../../words/index.ts';
import { patchCamera } from '../link/index.ts';
import { CameraKeys } from './camera-keys.tsx';

const doors = ['ftp', 'ftps', 'sftp'] as const;

/** Where one camera may come from and by which doors, a new password, and its end, which can be taken back. */
export function CameraAccess({ camera }: { readonly camera: CameraEntry }): ReactNode {
  const [refusal, setRefusal] = useState('');
  const change = (patch: CameraPatch): Promise<boolean> =>
    patchCamera(camera.name, patch).then(
      () => {
        setRefusal('');
        return true;
      },
      (thrown: unknown) => {
        setRefusal(thrown instanceof Error ? thrown.message : pageLabels.notTaken);
        return false;
      },
    );
  // One that only comes by a watched folder has no log-in to speak of.
  const hasDoor = camera.protocols.length > 0;
  return (
    <details className="camera-access">
      <summary>
        {camera.name}: {camera.ended ? pageLabels.accessEnded : pageLabels.access}
      </summary>
      {hasDoor ? <AllowField key={camera.allow.join()} camera={camera} change={change} /> : null}
      <DoorChoice camera={camera} change={change} />
      <CameraKeys camera={camera} change={change} />
      <WatchedFolders camera={camera} />
      <div className="camera-acts">
        {hasDoor ? (
          <button type="button" onClick={() => void change({ newPassword: true })}>
            {pageLabels.newPassword}
          </button>
        ) : null}
        <button type="button" onClick={() => void change({ ended: !camera.ended })}>
          {camera.ended ? pageLabels.letInAgain : pageLabels.endCamera}
        </button>
      </div>
      <p role="status">{refusal}</p>
    </details>
  );
}

interface AccessProps {
  readonly camera: CameraEntry;
  readonly change: (patch: CameraPatch) => Promise<boolean>;
}

/** Taken when the field is left or Enter is pressed, like any setting. */
function AllowField({ camera, change }: AccessProps): ReactNode {
  const id = useId();
  const [text, setText] = useState(camera.allow.join(', '));
  const take = (): void => {
    const allow = text.split(/[\s,;]+/).filter((rule) => rule !== '');
    if (allow.join() !== camera.allow.join()) void change({ allow });
  };
  return (
    <div className="camera-field">
      <label htmlFor={id}>{pageLabels.allowFrom}</label>
      <input
        id={id}
        value={text}
        placeholder={pageLabels.allowEverywhere}
        aria-describedby={`${id}-help`}
        spellCheck={false}
        onChange={(event) => setText(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => {
          if (event.key === 'Enter') take();
        }}
      />
      <small id={`${id}-help`}>{pageLabels.allowHelp}</small>
    </div>
  );
}

/**
 * At least one door stays, unless a folder is watched for the camera: one that may come in by none at all is ended, and
 * that has its own button.
 */
function DoorChoice({ camera, change }: AccessProps): ReactNode {
  const only = camera.protocols.length === 1 && camera.watched.length === 0;
  return (
    <fieldset className="camera-field">
      <legend>{pageLabels.comesBy}</legend>
      <div className="camera-choices">
        {doors.map((door) => {
          const isOpen = camera.protocols.includes(door);
          const others = camera.protocols.filter((name) => name !== door);
          return (
            <label key={door}>
              <input
                type="checkbox"
                checked={isOpen}
                disabled={isOpen && only}
                onChange={() => void change({ protocols: isOpen ? others : [...camera.protocols, door] })}
              />
              {doorNames[door]}
            </label>
          );
        })}
      </div>
    </fieldset>
  );
}

/** Folders of this computer that come in as this camera's files; an ended camera's are not watched. */
function WatchedFolders({ camera }: { readonly camera: CameraEntry }): ReactNode {
  if (camera.watched.length === 0) return null;
  return (
    <div className="camera-field">
      <span className="camera-field-name">{pageLabels.watchedFolder}</span>
      <div>
        {camera.watched.map((folder) => (
          <p key={folder}>
            {folder}
            {camera.ended ? `: ${pageLabels.notWatched}` : ''}
          </p>
        ))}
      </div>
    </div>
  );
}
