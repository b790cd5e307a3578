import { useId, useState } from 'preact/hooks';
import { sizeInWords } from './pictures.tsx';

export type PickedFile = { file: File; alt: string };

/** Discord's default limit for one file, in bytes. */
const MOST_BYTES = 10 * 1024 * 1024;

type Props = {
  label: string;
  help?: string | undefined;
  picked: PickedFile[];
  most?: number;
  required?: boolean;
  onPick(files: PickedFile[]): void;
};

/** Picks files and asks for a description of each. */
export function FileEntry({ label, help, picked, most = 1, required, onPick }: Props) {
  const id = useId();
  const [trouble, setTrouble] = useState('');
  const take = (list: FileList | null) => {
    const { kept, refused } = sortFiles([...(list ?? [])], most);
    setTrouble(refused);
    onPick(kept);
  };
  return (
    <div class="file-entry">
      <label for={id}>{label}</label>
      {help && <span class="small">{help}</span>}
      <input
        id={id}
        type="file"
        multiple={most > 1}
        required={required === true && picked.length === 0}
        onChange={(event) => take(event.currentTarget.files)}
      />
      {trouble !== '' && (
        <span class="trouble" role="alert">
          {trouble}
        </span>
      )}
      <PickedFiles picked={picked} onPick={onPick} />
    </div>
  );
}

/** The files that will be sent, each with its description. */
export const PickedFiles = ({ picked, onPick }: { picked: PickedFile[]; onPick(files: PickedFile[]): void }) => (
  <>
    {picked.map((one, index) => (
      <div key={index} class="picked">
        <span>
          {one.file.name} <span class="small">{sizeInWords(one.file.size)}</span>
        </span>
        <label>
          What it shows, in words
          <input
            type="text"
            maxLength={1024}
            value={one.alt}
            onInput={({ currentTarget: { value } }) =>
              onPick(picked.map((other, at) => (at === index ? { ...other, alt: value } : other)))
            }
          />
        </label>
        <button type="button" class="button quiet" onClick={() => onPick(picked.filter((_, at) => at !== index))}>
          Remove {one.file.name}
        </button>
      </div>
    ))}
  </>
);

/** Keeps what can be sent and says in words what cannot. */
export function sortFiles(files: File[], most: number): { kept: PickedFile[]; refused: string } {
  const tooBig = files.filter(({ size }) => size > MOST_BYTES);
  const fitting = files.filter(({ size }) => size <= MOST_BYTES);
  const words = tooBig.map(({ name, size }) => `${name} is ${sizeInWords(size)}; at most 10 MB can be sent.`);
  if (fitting.length > most) words.push(`Only the first ${most} can be sent.`);
  return { kept: fitting.slice(0, most).map((file) => ({ file, alt: '' })), refused: words.join(' ') };
}
