// SPDX-License-Identifier: GPL-3.0-or-later
// Names that would act if they were taken for markup, script or a change of the writing direction.
export const hostile = {
  title: `</title><script>window.acted = 'title'</script>"'&amp;<b>`,
  bending: `<img src=x onerror="window.acted='bending'">`,
  radial: `</script><script>window.acted='radial'</script> \u202Egnillor \u05d0\u05d1`,
};
