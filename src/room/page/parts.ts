// The parts of a message as Discord's JSON has them, as far as the page draws them. The numbers are Discord's own.

export type Media = { url: string };
export type Emoji = { name?: string | null };
export type TextPart = { type: 10; content: string };
export type ThumbnailPart = { type: 11; media: Media; description?: string | null; spoiler?: boolean };
export type GalleryPart = { type: 12; items: { media: Media; description?: string | null; spoiler?: boolean }[] };
export type FilePart = { type: 13; file: Media; spoiler?: boolean; name?: string; size?: number };
export type SeparatorPart = { type: 14; divider?: boolean; spacing?: 1 | 2 };
export type ButtonPart = {
  type: 2;
  /** 1 primary, 2 secondary, 3 success, 4 danger, 5 link. */
  style: number;
  label?: string;
  emoji?: Emoji;
  custom_id?: string;
  url?: string;
  disabled?: boolean;
};
export type SelectOption = { label: string; value: string; description?: string; default?: boolean; emoji?: Emoji };
/** 3 string, 5 user, 6 role, 7 user or role, 8 channel. */
export type SelectPart = {
  type: 3 | 5 | 6 | 7 | 8;
  custom_id: string;
  placeholder?: string;
  options?: SelectOption[];
  default_values?: { id: string }[];
  min_values?: number;
  max_values?: number;
  disabled?: boolean;
  required?: boolean;
};
export type RowPart = { type: 1; components: (ButtonPart | SelectPart)[] };
export type SectionPart = { type: 9; components: TextPart[]; accessory: ButtonPart | ThumbnailPart };
export type ContainerPart = {
  type: 17;
  accent_color?: number | null;
  spoiler?: boolean;
  components: MessagePart[];
};
export type MessagePart =
  RowPart | SectionPart | TextPart | ThumbnailPart | GalleryPart | FilePart | SeparatorPart | ContainerPart;

export type TextInputPart = {
  type: 4;
  custom_id: string;
  /** 1 one line, 2 several lines. */
  style: number;
  label?: string;
  value?: string;
  placeholder?: string;
  required?: boolean;
  min_length?: number;
  max_length?: number;
};
export type UploadPart = { type: 19; custom_id: string; min_values?: number; max_values?: number; required?: boolean };
export type RadioPart = { type: 21; custom_id: string; options: SelectOption[]; required?: boolean };
export type CheckboxesPart = {
  type: 22;
  custom_id: string;
  options: SelectOption[];
  min_values?: number;
  max_values?: number;
  required?: boolean;
};
export type CheckboxPart = { type: 23; custom_id: string; default?: boolean };
export type InputPart = TextInputPart | SelectPart | UploadPart | RadioPart | CheckboxesPart | CheckboxPart;
export type LabelPart = { type: 18; label: string; description?: string; component: InputPart };
export type ModalPart = LabelPart | TextPart | { type: 1; components: TextInputPart[] };

export type EmbedPart = {
  title?: string;
  description?: string;
  url?: string;
  color?: number;
  fields?: { name: string; value: string }[];
  footer?: { text: string };
  author?: { name: string };
  image?: { url: string; description?: string };
  thumbnail?: { url: string; description?: string };
};
