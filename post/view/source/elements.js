// SPDX-License-Identifier: GPL-3.0-or-later
// Elements of the page. Text always becomes text, never markup.

export function create(name, attributes = {}, children = []) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...children);
  return element;
}

/** A labelled choice; `chosen` is called with the index. */
export function choice(label, names, chosen) {
  const select = create(
    'select',
    {},
    names.map((name, i) => create('option', { value: String(i) }, [name])),
  );
  select.addEventListener('change', () => chosen(Number(select.value)));
  return { element: create('label', {}, [create('span', {}, [label]), select]), select };
}

export function button(text, pressed, attributes = {}) {
  const element = create('button', { type: 'button', ...attributes }, [text]);
  element.addEventListener('click', pressed);
  return element;
}
