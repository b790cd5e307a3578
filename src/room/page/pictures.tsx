import { useRef, useState } from 'preact/hooks';
import type { PageAttachment, PageMessage } from '../page-shapes.ts';
import type { GalleryPart } from './parts.ts';

/** Finds what a media address means: `attachment://name`, or an address of the room itself. */
function locate(url: string, message: PageMessage): { src: string; attachment: PageAttachment | undefined } {
  const name = url.startsWith('attachment://') ? url.slice('attachment://'.length) : null;
  const path = name === null ? pathOf(url) : null;
  const attachment = message.attachments.find((one) => (name === null ? one.url === path : one.name === name));
  return { src: attachment?.url ?? path ?? url, attachment };
}

/** The room serves its files under the page's own origin, so that the path is all that is needed. */
function pathOf(url: string): string {
  try {
    const address = new URL(url, location.href);
    return ['127.0.0.1', 'localhost'].includes(address.hostname) ? address.pathname : url;
  } catch {
    return url;
  }
}

/** Width and height before the picture is there, so that nothing jumps when it comes. */
function roomFor(attachment: PageAttachment | undefined, tallest: number): { width?: number; height?: number } {
  if (!attachment?.width || !attachment.height) return {};
  const scale = Math.min(1, tallest / attachment.height);
  return { width: Math.round(attachment.width * scale), height: Math.round(attachment.height * scale) };
}

type PictureProps = { url: string; alt: string; small?: boolean; spoiler?: boolean; message: PageMessage };

/** A picture that opens large, with its description in words beneath. */
export function Picture({ url, alt, small, spoiler, message }: PictureProps) {
  const dialog = useRef<HTMLDialogElement>(null);
  const [hidden, setHidden] = useState(spoiler === true);
  const { src, attachment } = locate(url, message);
  const words = alt || attachment?.alt || '';
  const name = words || `Picture without a description (${attachment?.name ?? 'no name'})`;
  if (hidden) {
    return (
      <button type="button" class="spoiler" onClick={() => setHidden(false)}>
        Hidden picture: press to show
      </button>
    );
  }
  return (
    <>
      <button type="button" class={`picture ${small ? 'thumb' : ''}`} onClick={() => dialog.current?.showModal()}>
        <img src={src} alt={name} {...roomFor(attachment, small ? 96 : 320)} />
      </button>
      <dialog
        ref={dialog}
        class="large"
        aria-label="Picture"
        onClick={(event) => event.target === dialog.current && dialog.current?.close()}
      >
        <figure>
          <img src={src} alt="" />
          <figcaption>{name}</figcaption>
        </figure>
        <button type="button" class="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </dialog>
    </>
  );
}

/** A media gallery. */
export const PictureRow = ({ items, message }: { items: GalleryPart['items']; message: PageMessage }) => (
  <div class="gallery">
    {items.map((item, index) => (
      <Picture
        key={index}
        url={item.media.url}
        alt={item.description ?? ''}
        spoiler={item.spoiler === true}
        message={message}
      />
    ))}
  </div>
);

/** A file to take away. */
export function FileLink({ url, message }: { url: string; message: PageMessage }) {
  const { src, attachment } = locate(url, message);
  return (
    <a class="file" href={src} download={attachment?.name ?? true}>
      {attachment?.name ?? url} <span class="small">{attachment ? sizeInWords(attachment.bytes) : ''}</span>
    </a>
  );
}

/** What was attached to a plain message: pictures drawn, other files as links. */
export const Attachments = ({ message }: { message: PageMessage }) => (
  <div class="gallery">
    {message.attachments.map((one) =>
      one.type.startsWith('image/') ? (
        <Picture key={one.id} url={one.url} alt={one.alt} message={message} />
      ) : (
        <FileLink key={one.id} url={one.url} message={message} />
      ),
    )}
  </div>
);

/** `1.4 MB`, `320 kB`. */
export const sizeInWords = (bytes: number): string =>
  bytes >= 1_000_000 ? `${(bytes / 1_000_000).toFixed(1)} MB` : `${Math.max(1, Math.round(bytes / 1000))} kB`;
