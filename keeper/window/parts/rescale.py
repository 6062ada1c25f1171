"""Gaps and margins that were set when a page was built follow the text when its size changes."""

from PySide6.QtWidgets import QApplication, QGridLayout, QLayout, QStyle, QWidget

from keeper.window.parts.small import GAP


def rescale(window: QWidget, by: float) -> None:
    """Multiply gaps, margins and least widths in a window, where they are in times the text's height.

    To be done before the pages take up the new size themselves: what they set
    anew is then as they set it.
    """
    for layout in window.findChildren(QLayout):
        _rescale(layout, by)
    for part in window.findChildren(QWidget):
        # A width kept free, such as that of a column of dates; a whole size is worked out anew by its part.
        if not part.isWindow() and 0 < part.minimumWidth() < part.maximumWidth():
            part.setMinimumWidth(round(part.minimumWidth() * by))


def _rescale(layout: QLayout, by: float) -> None:
    margins = layout.contentsMargins()
    sides = (margins.left(), margins.top(), margins.right(), margins.bottom())
    usual = QApplication.style().pixelMetric(QStyle.PixelMetric.PM_LayoutLeftMargin)
    if sides != (usual,) * 4:
        layout.setContentsMargins(*(round(side * by) for side in sides))
    if isinstance(layout, QGridLayout):
        layout.setHorizontalSpacing(round(layout.horizontalSpacing() * by))
        layout.setVerticalSpacing(round(layout.verticalSpacing() * by))
    elif layout.spacing() not in (GAP, _usual_gap()):
        layout.setSpacing(round(layout.spacing() * by))
    for place in range(layout.count()):
        spacer = layout.itemAt(place).spacerItem()
        if spacer:
            policy, size = spacer.sizePolicy(), spacer.sizeHint()
            spacer.changeSize(round(size.width() * by), round(size.height() * by),
                              policy.horizontalPolicy(), policy.verticalPolicy())  # fmt: skip
    layout.invalidate()


def _usual_gap() -> int:
    return QApplication.style().pixelMetric(QStyle.PixelMetric.PM_LayoutVerticalSpacing)
