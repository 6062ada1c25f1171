"""The demo keeper: invented text, drawn pictures, made readings, and what joins them."""
