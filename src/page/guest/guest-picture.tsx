import type { ReactNode } from 'react';
import type { Frame } from '../../contract/index.ts';
import { markNames, remarkCount } from '../../words/index.ts';
import { pictureAddress } from '../link/index.ts';

/** Wide enough for two in a row on a sharp tablet. */
const widthPx = 800;

interface GuestPictureProps {
  readonly frame: Frame;
  readonly onOpen: () => void;
}

/** One picture among the others; a browser fetches it when it comes near. */
export function GuestPicture({ frame, onOpen }: GuestPictureProps): ReactNode {
  const { picture } = frame;
  // The station tells a guest of no others.
  if (picture.state !== 'rendered') return null;
  return (
    <li className="guest-picture">
      <button type="button" onClick={onOpen}>
        <img
          src={pictureAddress(frame.id, widthPx, picture.version)}
          width={picture.width}
          height={picture.height}
          alt=""
          loading="lazy"
          decoding="async"
        />
        <span className="guest-name">
          {frame.name}
          {frame.remarks.length === 0 ? null : <span>{remarkCount(frame.remarks.length)}</span>}
          {frame.mark === 'none' ? null : <strong>{markNames[frame.mark]}</strong>}
        </span>
      </button>
    </li>
  );
}
