"""Addresses of the schedules app, under /projects/<project>/."""

from django.urls import path

from schedules.views import (
    calendars,
    key_dates,
    lanes,
    links,
    parts,
    records,
    schedule,
    slip,
    tasks,
    update,
)

app_name = "schedules"
urlpatterns = [
    path("parts/", parts.parts, name="parts"),
    path("parts/new/", parts.part_add, name="part-add"),
    path("parts/<int:part_id>/", parts.part_edit, name="part-edit"),
    path("parts/<int:part_id>/delete/", parts.part_delete, name="part-delete"),
    path("parts/stages/<int:stage_id>/", parts.stage, name="stage"),
    path("parts/stages/<int:stage_id>/tick/", parts.stage_tick, name="stage-tick"),
    path("parts/stages/<int:stage_id>/untick/", parts.stage_untick, name="stage-untick"),
    path("parts/stages/<int:stage_id>/tie/", parts.stage_tie, name="stage-tie"),
    path("schedule/", schedule.schedule, name="schedule"),
    path("schedule/tasks/new/", tasks.task_add, name="task-add"),
    path("schedule/tasks/<int:task_id>/", tasks.task_edit, name="task-edit"),
    path("schedule/tasks/<int:task_id>/delete/", tasks.task_delete, name="task-delete"),
    path("schedule/tasks/<int:task_id>/progress/", tasks.task_progress, name="task-progress"),
    path("schedule/tasks/<int:task_id>/why/", schedule.why, name="why"),
    path("schedule/tasks/<int:task_id>/links/", links.link_add, name="link-add"),
    path("schedule/links/<int:link_id>/delete/", links.link_delete, name="link-delete"),
    path("schedule/lanes/new/", lanes.lane_edit, name="lane-add"),
    path("schedule/lanes/<int:lane_id>/", lanes.lane_edit, name="lane-edit"),
    path("schedule/lanes/<int:lane_id>/delete/", lanes.lane_delete, name="lane-delete"),
    path("schedule/lanes/<int:lane_id>/move/", lanes.lane_move, name="lane-move"),
    path("schedule/dates/new/", key_dates.key_date_edit, name="key-date-add"),
    path("schedule/dates/<int:key_date_id>/", key_dates.key_date_edit, name="key-date-edit"),
    path(
        "schedule/dates/<int:key_date_id>/delete/",
        key_dates.key_date_delete,
        name="key-date-delete",
    ),
    path("schedule/calendars/", calendars.calendars, name="calendars"),
    path("schedule/calendars/new/", calendars.calendar_edit, name="calendar-add"),
    path("schedule/calendars/<int:calendar_id>/", calendars.calendar_edit, name="calendar-edit"),
    path(
        "schedule/calendars/<int:calendar_id>/delete/",
        calendars.calendar_delete,
        name="calendar-delete",
    ),
    path("schedule/calendars/<int:calendar_id>/days/", calendars.days_add, name="days-add"),
    path(
        "schedule/calendars/days/<int:exception_id>/delete/",
        calendars.days_delete,
        name="days-delete",
    ),
    path("schedule/update/", update.update, name="update"),
    path("schedule/update/<int:task_id>/", update.update_answer, name="update-answer"),
    path("schedule/update/<int:task_id>/undo/", update.update_undo, name="update-undo"),
    path("schedule/tasks/<int:task_id>/ahead/", update.task_ahead, name="task-ahead"),
    path("schedule/slip/", slip.slip, name="slip"),
    path("schedule/slip/apply/", slip.slip_apply, name="slip-apply"),
    path("schedule/record/", records.record_keep, name="record-keep"),
]
